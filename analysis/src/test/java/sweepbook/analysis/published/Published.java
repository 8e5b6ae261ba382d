package sweepbook.analysis.published;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * One published source: its data, and the values it gives for them. Closing it fails when a value that the file names
 * was compared with nothing, or data were not used.
 *
 * <pre>
 * # comment, anywhere
 * source = who published it, where, when
 * seen = copy | memory | ...                 how the numbers came into this file
 * [data]                                     numbers that go in
 * x = 21.521 22.012
 * [published]                                numbers that must come out, as printed
 * slope = 0.00218                            tolerance: half a unit of its last digit
 * u_c = 31.6..32.1                           or a range
 * b0 = -0.262323073774029(1e-12)             or a stated tolerance
 * [derived]                                  the same, for our own consequences of published data
 * </pre>
 */
public final class Published implements AutoCloseable {
    private final String file;
    private final Map<String, String[]> data = new LinkedHashMap<>();
    private final Map<String, String[]> expected = new LinkedHashMap<>();
    private final Set<String> untouched = new LinkedHashSet<>();

    private Published(String file, List<String> lines) {
        this.file = file;
        String section = "";
        Set<String> head = new LinkedHashSet<>(List.of("source", "seen"));
        for (String raw : lines) {
            String line = raw.replaceFirst("(^|\\s)#.*", "").strip();
            if (line.isEmpty()) {
                continue;
            }
            if (line.startsWith("[")) {
                section = line;
                continue;
            }
            int equals = line.indexOf(" = ");
            if (equals < 0) {
                throw new AssertionError(file + ": no ' = ' in '" + line + "'");
            }
            String name = line.substring(0, equals).strip();
            String[] values = line.substring(equals + 3).strip().split("\\s+");
            switch (section) {
                case "" -> head.remove(name);
                case "[data]" -> put(data, name, values);
                case "[published]", "[derived]" -> put(expected, name, values);
                default -> throw new AssertionError(file + ": unknown section " + section);
            }
        }
        if (!head.isEmpty() || expected.isEmpty()) {
            throw new AssertionError(file + " must name its source and how it was seen, and expect something");
        }
    }

    /** The source in {@code src/test/resources/published/<file>}. */
    public static Published source(String file) {
        try (InputStream in = Published.class.getResourceAsStream("/published/" + file)) {
            if (in == null) {
                throw new AssertionError("no published source " + file);
            }
            return new Published(
                    file,
                    new String(in.readAllBytes(), StandardCharsets.UTF_8)
                            .lines()
                            .toList());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Published of(String... lines) {
        return new Published("test", Arrays.asList(lines));
    }

    private void put(Map<String, String[]> into, String name, String[] values) {
        if (data.containsKey(name) || expected.containsKey(name)) {
            throw new AssertionError(file + " has " + name + " twice");
        }
        into.put(name, values);
        untouched.add(name);
    }

    /** Numbers that go in. */
    public double[] data(String name) {
        return Arrays.stream(words(name)).mapToDouble(Double::parseDouble).toArray();
    }

    /** The single number that goes in. */
    public double datum(String name) {
        double[] values = data(name);
        if (values.length != 1) {
            throw new AssertionError(file + ": " + name + " has " + values.length + " values, not one");
        }
        return values[0];
    }

    /** What goes in, as words. */
    public String[] words(String name) {
        return take(data, name);
    }

    /** Names of expected values that begin like this, in the order of the file. */
    public List<String> expectedNames(String beginning) {
        return expected.keySet().stream()
                .filter(name -> name.startsWith(beginning))
                .toList();
    }

    /** Compares what came out with what the source prints, each value within its own tolerance. */
    public void check(String name, double... actual) {
        String[] printed = take(expected, name);
        List<String> wrong = new ArrayList<>();
        if (printed.length != actual.length) {
            wrong.add("expected " + printed.length + " values, got " + actual.length);
        }
        for (int i = 0; i < Math.min(printed.length, actual.length); i++) {
            Range range = Range.of(printed[i]);
            if (!(actual[i] >= range.least() && actual[i] <= range.greatest())) {
                wrong.add("value " + (i + 1) + ": published " + printed[i] + ", got " + actual[i]);
            }
        }
        if (!wrong.isEmpty()) {
            throw new AssertionError(file + ", " + name + ": " + String.join("; ", wrong));
        }
    }

    /** Compares a word that came out with what the source says. */
    public void checkWords(String name, String actual) {
        String printed = String.join(" ", take(expected, name));
        if (!printed.equals(actual)) {
            throw new AssertionError(file + ", " + name + ": published '" + printed + "', got '" + actual + "'");
        }
    }

    private String[] take(Map<String, String[]> from, String name) {
        String[] values = from.get(name);
        if (values == null) {
            throw new AssertionError(file + " has no " + name + " there, only " + from.keySet());
        }
        untouched.remove(name);
        return values;
    }

    @Override
    public void close() {
        if (!untouched.isEmpty()) {
            throw new AssertionError(file + ": compared with nothing, or not used: " + untouched);
        }
    }

    private record Range(double least, double greatest) {
        // A double nearest to a printed decimal may lie a rounding error beyond the exact half digit.
        private static final double ROUNDING = 1e-15;

        static Range of(String printed) {
            int dots = printed.indexOf("..");
            if (dots > 0) {
                return new Range(
                        Double.parseDouble(printed.substring(0, dots)),
                        Double.parseDouble(printed.substring(dots + 2)));
            }
            int bracket = printed.indexOf('(');
            String number = bracket < 0 ? printed : printed.substring(0, bracket);
            double value = Double.parseDouble(number);
            double tolerance = bracket < 0
                    ? new BigDecimal(number).ulp().doubleValue() / 2 + ROUNDING * Math.abs(value)
                    : Double.parseDouble(printed.substring(bracket + 1, printed.length() - 1));
            if (!(tolerance >= 0)) {
                throw new AssertionError("not a tolerance: " + printed);
            }
            return new Range(value - tolerance, value + tolerance);
        }
    }
}
