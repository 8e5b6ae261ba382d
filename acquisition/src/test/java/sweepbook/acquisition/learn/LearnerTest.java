package sweepbook.acquisition.learn;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
import sweepbook.acquisition.link.Links;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.LineSettings.Parity;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.acquisition.wire.Scale;

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
        return learn(bytes, Hints.NONE);
    }

    private static Learned learn(byte[] bytes, Hints hints) {
        return new Learner(LINE, false, Optional.empty(), hints).learn(bytes);
    }

    private static List<Double> readings(Learned.Proposed learned) {
        return learned.values().stream().map(Decoded.Value::value).toList();
    }

    private static Learned.Proposed proposed(Learned learned) {
        assertTrue(learned instanceof Learned.Proposed, learned.toString());
        return (Learned.Proposed) learned;
    }

    private static void assertRefused(String part, Learned learned) {
        assertFalse(learned instanceof Learned.Proposed, learned.toString());
        assertTrue(learned.toString().contains(part), learned.toString());
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
        assertEquals(expected(3), readings(learned));
        assertEquals(0.001, learned.profile().scales().get(0).resolution());
        assertTrue(learned.confidence() > 0.95);
    }

    @Test
    void aClockInTheLineIsNotTakenForTheReading() {
        Learned.Proposed learned = proposed(learn(lines(i -> format("%06d;%.4f in\n", 1000 + 25 * i, value(i)))));
        assertEquals(expected(4), readings(learned));
        assertEquals(LengthUnit.IN, learned.profile().scales().get(0).unit());
    }

    @Test
    void blanksBetweenSignAndDigitsAndAStepOfFiveAreLearned() {
        Learned.Proposed learned = proposed(learn(lines(
                i -> format("%s%7.4fmm\r", value(i) < 0 ? "-" : "+", Math.abs(Math.rint(value(i) * 2000) / 2000)))));
        assertEquals(0.0005, learned.profile().scales().get(0).resolution());
        assertEquals(40, learned.values().size());
    }

    @Test
    void withoutAUnitItIsAskedForAndTakenFromThePerson() {
        byte[] bytes = lines(i -> format("%+.3f\r\n", value(i)));
        assertRefused("--unit mm or --unit in", learn(bytes));
        Learned.Proposed learned = proposed(learn(bytes, Hints.NONE.withUnit(LengthUnit.IN)));
        assertEquals(expected(3), readings(learned));
        assertEquals(LengthUnit.IN, learned.profile().scales().get(0).unit());
    }

    @Test
    void twoNumbersThatChangeAreNotGuessedBetween() {
        byte[] bytes = lines(i -> format("%+.3f mm %+.3f\r\n", value(i), value(i + 7)));
        assertRefused("--number 1 to 2", learn(bytes));
        Learned.Proposed learned = proposed(learn(bytes, Hints.NONE.withNumber(1)));
        assertEquals(expected(3), readings(learned));
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

    @Test
    void aDecimalCommaIsAskedForAndTakenFromThePerson() {
        byte[] bytes = lines(i -> format("%+08.3f mm\r\n", value(i)).replace('.', ','));
        assertRefused("--decimal-mark comma or point", learn(bytes));
        Learned.Proposed learned = proposed(learn(bytes, Hints.NONE.withDecimalMark(',')));
        assertEquals(expected(3), readings(learned));
        // The same bytes as two numbers: which of them is then open.
        assertRefused("--number 1 to 2", learn(bytes, Hints.NONE.withDecimalMark('.')));
    }

    @Test
    void indicatorsThatShareALineAreNotMixed() {
        byte[] bytes = lines(i -> format("%d:%+08.3f mm\r\n", 1 + i % 2, value(i) + i % 2));
        assertRefused("--number 1 to 2", learn(bytes));
        assertRefused("1 and 2 take turns", learn(bytes, Hints.NONE.withNumber(2)));
        Learned.Proposed learned =
                proposed(learn(bytes, Hints.NONE.withNumber(2).withChannel("2")));
        List<Double> wanted = new ArrayList<>();
        for (int i = 1; i < 40; i += 2) {
            wanted.add(Double.parseDouble(format("%.3f", value(i) + 1)));
        }
        assertEquals(wanted, readings(learned));
    }

    @Test
    void unitsThatTakeTurnsHaveEachItsOwnStep() {
        Learned.Proposed learned = proposed(learn(
                lines(i -> i < 20 ? format("%+08.3f mm\r\n", value(i)) : format("%+08.5f in\r\n", value(i) / 25.4))));
        assertEquals(
                List.of(0.001, 0.00001),
                learned.profile().scales().stream().map(Scale::resolution).toList());
        assertEquals(LengthUnit.IN, learned.values().get(39).scale().unit());
    }

    @Test
    void aBundledFormatHeardAtAnotherSpeedIsProposedAtThatSpeed() {
        FrameEncoder encoder = new FrameEncoder(Profiles.bundled("packed-crc-stream"));
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (int i = 0; i < 40; i++) {
            bytes.writeBytes(encoder.encode(new Reading(0, value(i))));
        }
        Learner heard = new Learner(LineSettings.eightNoneOne(19200), true, Optional.empty(), Hints.NONE);
        assertEquals(
                19200,
                proposed(heard.learn(bytes.toByteArray())).profile().line().speed_baud());
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
                        Links::open,
                        Clock.system(),
                        Duration.ofSeconds(1),
                        Hints.NONE,
                        line -> {})
                .search());
        assertEquals(expected(3), readings(learned));
        assertEquals(Parity.EVEN, learned.profile().line().parity());
        assertEquals(7, learned.profile().line().dataBits());
    }
}
