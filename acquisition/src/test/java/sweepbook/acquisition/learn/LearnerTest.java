package sweepbook.acquisition.learn;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.LineSettings.Parity;
import sweepbook.acquisition.wire.Profiles;

class LearnerTest {
    private static final LineSettings LINE = LineSettings.eightNoneOne(9600);

    @TempDir
    Path folder;

    /** What the plunger does while it is moved by hand. */
    private static double value(int i) {
        return 1.25 * Math.sin(i / 3.0);
    }

    private static byte[] lines(IntFunction<String> line) {
        StringBuilder text = new StringBuilder(line.apply(0).substring(6));
        for (int i = 0; i < 40; i++) {
            text.append(line.apply(i));
        }
        return text.append("+0").toString().getBytes(StandardCharsets.ISO_8859_1);
    }

    private static String format(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private static Learned learn(byte[] bytes) {
        return Learner.learn(bytes, LINE, Optional.empty(), Optional.empty());
    }

    private static Learned.Proposed proposed(Learned learned) {
        assertTrue(learned instanceof Learned.Proposed, learned.toString());
        return (Learned.Proposed) learned;
    }

    private static void assertRefused(String part, Learned learned) {
        assertTrue(learned instanceof Learned.Refused, learned.toString());
        assertTrue(((Learned.Refused) learned).why().contains(part), learned.toString());
    }

    private static List<Double> expected(int decimals) {
        List<Double> values = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            values.add(Double.parseDouble(format("%." + decimals + "f", value(i))));
        }
        return values;
    }

    @Test
    void linesThatSayTheirUnitAreLearned() {
        Learned.Proposed learned = proposed(learn(lines(i -> format("G1 %+08.3f mm\r\n", value(i)))));
        assertEquals(expected(3), learned.readings());
        assertEquals(0.001, learned.profile().scales().get(0).resolution());
        assertTrue(learned.confidence() > 0.95);
    }

    @Test
    void aClockInTheLineIsNotTakenForTheReading() {
        Learned.Proposed learned = proposed(learn(lines(i -> format("%06d;%.4f in\n", 1000 + 25 * i, value(i)))));
        assertEquals(expected(4), learned.readings());
        assertEquals(LengthUnit.IN, learned.profile().scales().get(0).unit());
    }

    @Test
    void blanksBetweenSignAndDigitsAndAStepOfFiveAreLearned() {
        Learned.Proposed learned = proposed(learn(lines(
                i -> format("%s%7.4fmm\r", value(i) < 0 ? "-" : "+", Math.abs(Math.rint(value(i) * 2000) / 2000)))));
        assertEquals(0.0005, learned.profile().scales().get(0).resolution());
        assertEquals(40, learned.readings().size());
    }

    @Test
    void withoutAUnitItIsAskedForAndTakenFromThePerson() {
        byte[] bytes = lines(i -> format("%+.3f\r\n", value(i)));
        assertRefused("--unit mm or --unit in", learn(bytes));
        Learned.Proposed learned = proposed(Learner.learn(bytes, LINE, Optional.of(LengthUnit.IN), Optional.empty()));
        assertEquals(expected(3), learned.readings());
        assertEquals(LengthUnit.IN, learned.profile().scales().get(0).unit());
    }

    @Test
    void twoNumbersThatChangeAreNotGuessedBetween() {
        byte[] bytes = lines(i -> format("%+.3f mm %+.3f\r\n", value(i), value(i + 7)));
        assertRefused("--number 1 to 2", learn(bytes));
        Learned.Proposed learned = proposed(Learner.learn(bytes, LINE, Optional.empty(), Optional.of(1)));
        assertEquals(expected(3), learned.readings());
    }

    @Test
    void aPlungerThatStandsStillTeachesNothing() {
        assertRefused("move the plunger", learn(lines(i -> "+001.250 mm\r\n")));
        assertRefused("only 0 lines", learn("+1.2\r\n".getBytes(StandardCharsets.US_ASCII)));
        assertRefused("no line ends", learn(new byte[] {1, 2, 3, 4}));
    }

    @Test
    void framesWithAChecksumAreFoundAmongTheBundledProfiles() {
        for (String name : List.of("packed-crc-stream", "digits-framed-stream", "text-check-button")) {
            FrameEncoder encoder = new FrameEncoder(Profiles.bundled(name));
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            bytes.writeBytes(new byte[] {0x35, 0x41});
            for (int i = 0; i < 40; i++) {
                bytes.writeBytes(encoder.encode(new Reading(0, value(i))));
            }
            assertEquals(name, proposed(learn(bytes.toByteArray())).profile().name());
        }
    }

    /** Seven bits and even parity, as a port that is set to eight bits without parity hears them. */
    @Test
    void parityIsToldFromTheHighestBit() throws Exception {
        byte[] heard = lines(i -> format("%+08.3f mm\r\n", value(i)));
        for (int i = 0; i < heard.length; i++) {
            heard[i] |= (byte) (Integer.bitCount(heard[i]) % 2 << 7);
        }
        Path file = Files.write(folder.resolve("heard.bytes"), heard);
        Learned.Proposed learned = proposed(new LineSearch(
                        new LinkAddress.Replay(file),
                        Clock.system(),
                        Duration.ofSeconds(1),
                        Optional.empty(),
                        Optional.empty(),
                        line -> {})
                .search());
        assertEquals(expected(3), learned.readings());
        assertEquals(Parity.EVEN, learned.profile().line().parity());
        assertEquals(7, learned.profile().line().dataBits());
    }
}
