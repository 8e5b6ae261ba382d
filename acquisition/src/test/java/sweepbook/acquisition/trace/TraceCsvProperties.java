package sweepbook.acquisition.trace;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** Laws of writing and reading numbers. */
class TraceCsvProperties {
    /** Law: any decimal text is read as the nearest double, as the platform reads it. */
    @Property(tries = 2000)
    void decimalsAreReadAsThePlatformReadsThem(@ForAll("decimals") String text) {
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        assertEquals(Double.parseDouble(text), Decimals.parse(bytes, 0, bytes.length), text);
    }

    @Provide
    Arbitrary<String> decimals() {
        Arbitrary<String> sign = Arbitraries.of("", "-", "+");
        Arbitrary<String> whole = Arbitraries.strings().numeric().ofMinLength(1).ofMaxLength(22);
        Arbitrary<String> part = Arbitraries.strings().numeric().ofMaxLength(25).map(s -> s.isEmpty() ? "" : "." + s);
        Arbitrary<String> power = Arbitraries.of("", "", "", "e-3", "E5", "e300", "e-320");
        return Combinators.combine(sign, whole, part, power).as((a, b, c, d) -> a + b + c + d);
    }

    /** Law: any double is printed so that it is read back as itself. */
    @Property(tries = 2000)
    void anyDoubleComesBack(@ForAll double value, @ForAll @IntRange(min = 0, max = 9) int decimals) {
        StringBuilder text = new StringBuilder();
        Decimals.print(text, value, decimals);
        assertEquals(
                value + 0.0,
                Decimals.parse(text.toString().getBytes(StandardCharsets.US_ASCII), 0, text.length()) + 0.0,
                text.toString());
    }

    /** Law: a trace written and read again is the same to the last bit, whatever the unit and step of the display. */
    @Property(tries = 200)
    void aTraceComesBackFromItsFile(
            @ForAll LengthUnit unit,
            @ForAll @IntRange(min = 0, max = 3) int step,
            @ForAll @Size(min = 1, max = 50) int[] shown)
            throws IOException {
        double resolution = new double[] {0.01, 0.001, 0.0005, 0.00005}[step];
        double[] readings_mm = Arrays.stream(shown)
                .mapToDouble(n -> unit.toMm(Math.rint(n % 100_000 * resolution * 1e5) / 1e5))
                .toArray();
        double[] times_s = new double[shown.length];
        Arrays.setAll(times_s, i -> i * 0.0123);
        Trace trace = Trace.of(unit, unit.toMm(resolution), times_s, readings_mm);
        Path folder = Files.createTempDirectory("sweepbook-trace");
        Path file = folder.resolve("t.csv");
        try {
            TraceCsvWriter.write(file, trace);
            Trace back = TraceCsv.read(file);
            assertArrayEquals(times_s, back.times_s());
            assertArrayEquals(readings_mm, back.readings_mm());
            assertEquals(trace.resolution_mm(), back.resolution_mm());
            assertEquals(unit, back.unit());
        } finally {
            Files.deleteIfExists(file);
            Files.delete(folder);
        }
    }
}
