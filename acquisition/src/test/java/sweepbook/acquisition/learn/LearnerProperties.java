package sweepbook.acquisition.learn;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.LineSettings;

/** Laws of learning, on lines of formats that nobody has described. */
class LearnerProperties {
    /** A format drawn by lot. */
    private record Format(
            String prefix,
            int sign,
            int width,
            boolean zeros,
            int decimals,
            int step,
            char mark,
            String unit,
            String suffix,
            String end,
            boolean clock) {
        static Format drawnBy(Random random) {
            return new Format(
                    pick(random, "", "A", "ID ", "# ", "P1:", "r="),
                    random.nextInt(3),
                    random.nextInt(3) == 0 ? 0 : 7 + random.nextInt(4),
                    random.nextBoolean(),
                    2 + random.nextInt(3),
                    random.nextInt(4) == 0 ? 5 : 1,
                    random.nextInt(4) == 0 ? ',' : '.',
                    pick(random, "", " mm", "mm", " in", " inch", " MM", "\tIN"),
                    pick(random, "", " ok", ";"),
                    pick(random, "\r\n", "\n", "\r"),
                    random.nextInt(4) == 0);
        }

        private static String pick(Random random, String... all) {
            return all[random.nextInt(all.length)];
        }

        /** A whole number of steps that the format can show. */
        double value(long steps) {
            return Double.parseDouble(
                    String.format(Locale.ROOT, "%." + decimals + "f", steps * step * Math.pow(10, -decimals)));
        }

        String line(int i, double value) {
            String flags = sign == 0 ? "+" : sign == 1 ? " " : "";
            String padding = width == 0 ? "" : (zeros ? "0" : "") + width;
            String number = String.format(
                    mark == ',' ? Locale.GERMANY : Locale.ROOT, "%" + flags + padding + "." + decimals + "f", value);
            String time = clock ? String.format("%08d ", 1000 + 37 * i) : "";
            return time + prefix + number + unit + suffix + end;
        }

        Hints hints() {
            Hints hints = mark == ',' ? Hints.NONE.withDecimalMark(',') : Hints.NONE;
            return unit.isEmpty() ? hints.withUnit(LengthUnit.MM) : hints;
        }
    }

    /**
     * Law: what was learned from a plunger that moved a little reads every later reading of the same format, wherever the
     * plunger goes, as it was sent. Where nothing can be proposed the person is told what to say.
     */
    @Property(tries = 300)
    void whatIsLearnedReadsWhatTheIndicatorSends(@ForAll long seed) {
        Random random = new Random(seed);
        Format format = Format.drawnBy(random);
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 60; i++) {
            text.append(format.line(i, format.value(Math.round(150 * Math.sin(i / 3.0) + random.nextInt(3)))));
        }
        byte[] bytes = text.toString().getBytes(StandardCharsets.ISO_8859_1);
        Learned learned =
                new Learner(LineSettings.eightNoneOne(9600), false, Optional.empty(), format.hints()).learn(bytes);
        String about = "seed " + seed + ": " + format + " from '" + text.substring(0, 30) + "': " + learned;
        assertTrue(learned instanceof Learned.Proposed, about);
        Learned.Proposed proposed = (Learned.Proposed) learned;
        FrameDecoder decoder = new FrameDecoder(proposed.profile());
        byte[] joint = format.end().getBytes(StandardCharsets.ISO_8859_1);
        decoder.feed(joint, 0, joint.length);
        decoder.next();
        for (int i = 60; i < 90; i++) {
            double value = format.value(random.nextInt(20_001) - 10_000);
            byte[] line = format.line(i, value).getBytes(StandardCharsets.ISO_8859_1);
            decoder.feed(line, 0, line.length);
            Decoded decoded = decoder.next();
            assertTrue(decoded instanceof Decoded.Value, about + "; '" + format.line(i, value) + "' is " + decoded);
            assertEquals(value + 0.0, ((Decoded.Value) decoded).value() + 0.0, about);
            assertEquals(
                    format.unit().toLowerCase(Locale.ROOT).contains("in") ? LengthUnit.IN : LengthUnit.MM,
                    ((Decoded.Value) decoded).scale().unit(),
                    about);
        }
    }

    /** Law: noise, or characters thrown together, teach nothing, and break nothing. */
    @Property(tries = 300)
    void noiseTeachesNothing(@ForAll long seed) {
        Random random = new Random(seed);
        String characters = pickCharacters(random);
        byte[] noise = new byte[random.nextInt(3000)];
        for (int i = 0; i < noise.length; i++) {
            noise[i] = characters.isEmpty()
                    ? (byte) random.nextInt(256)
                    : (byte) characters.charAt(random.nextInt(characters.length()));
        }
        Learned learned = new Learner(LineSettings.eightNoneOne(9600), true, Optional.empty(), Hints.NONE).learn(noise);
        assertFalse(learned instanceof Learned.Proposed, "seed " + seed + ": " + learned);
    }

    private static String pickCharacters(Random random) {
        return Format.pick(random, "", "0123456789+-. \r\n", "01.\n", "+-0.,;:mmin\r", "A1\\E\\Q(?<\n");
    }
}
