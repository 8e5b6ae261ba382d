package sweepbook.acquisition.wire;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Lines of text, each ended by a terminator, of which the whole must fit a pattern.
 *
 * @param terminator as ISO 8859-1 text
 * @param pattern with the named groups {@code reading} and, as wanted, {@code unit}, {@code mark}, {@code status},
 *     {@code time}
 * @param time the unit of the group {@code time}
 * @param template how a line with a value is printed
 * @param statusTemplate how a line with a status word is printed
 */
record TextLines(
        String terminator, Pattern pattern, Optional<TimeUnit> time, Template template, Template statusTemplate)
        implements FrameFormat {
    /** Indicators send a few dozen characters a line; this many without a terminator are no line. */
    static final int LONGEST_LINE = 256;

    static final Set<String> GROUPS = Set.of("reading", "unit", "mark", "status", "time");
    private static final Pattern GROUP = Pattern.compile("\\(\\?<(\\w+)>");
    /** A whole line that fits costs a few hundred steps; a pattern that needs this many is running wild. */
    private static final int MOST_STEPS = 200_000;

    private static final String FRONTS = "0123456789+-";

    /** Whether the pattern has the group. */
    boolean has(String group) {
        Matcher named = GROUP.matcher(pattern.pattern());
        while (named.find()) {
            if (named.group(1).equals(group)) {
                return true;
            }
        }
        return false;
    }

    @Override
    public boolean hasMarks() {
        return has("mark");
    }

    @Override
    public Scan scan(byte[] bytes, int from, int to, boolean first) {
        int end = indexOfTerminator(bytes, from, to);
        if (end < 0) {
            return to - from <= LONGEST_LINE
                    ? Scan.NeedMore.NEED_MORE
                    : new Scan.Noise(to - from, "no terminator within " + LONGEST_LINE + " bytes");
        }
        int length = end - from + terminator.length();
        if (end - from > LONGEST_LINE) {
            return new Scan.Noise(length, "longer than " + LONGEST_LINE + " bytes");
        }
        String line = new String(bytes, from, end - from, StandardCharsets.ISO_8859_1);
        try {
            Matcher matcher = pattern.matcher(new Metered(line));
            if (!matcher.matches()) {
                return new Scan.Noise(length, "does not fit the pattern");
            }
            if (first && couldBeLonger(line)) {
                return new Scan.Noise(length, "the first line, and its front may be missing");
            }
            return content(matcher)
                    .<Scan>map(content -> new Scan.Frame(length, content))
                    .orElseGet(() -> new Scan.Noise(length, "a number in it cannot be read"));
        } catch (TooManySteps e) {
            return new Scan.Noise(length, "the pattern needs over " + MOST_STEPS + " steps; make it simpler");
        }
    }

    private Optional<Content> content(Matcher matcher) {
        String word = group(matcher, "status");
        if (!word.isEmpty()) {
            return Optional.of(new Content.Word(word));
        }
        try {
            double value = Double.parseDouble(group(matcher, "reading").strip().replace(" ", ""));
            double time_s = Double.NaN;
            if (time.isPresent()) {
                time_s =
                        time.get().seconds(Long.parseLong(group(matcher, "time").strip()));
            }
            String mark = group(matcher, "mark");
            boolean marked = !mark.isBlank() && !mark.equals("0");
            return Double.isFinite(value)
                    ? Optional.of(new Content.Number(value, group(matcher, "unit"), marked, time_s))
                    : Optional.empty();
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }

    private String group(Matcher matcher, String name) {
        String text = has(name) ? matcher.group(name) : null;
        return text == null ? "" : text;
    }

    /** Whether the line would fit as well with one or two more characters in front. */
    private boolean couldBeLonger(String line) {
        for (int i = 0; i < FRONTS.length(); i++) {
            String longer = FRONTS.charAt(i) + line;
            if (pattern.matcher(new Metered(longer)).matches()) {
                return true;
            }
            for (int j = 0; j < FRONTS.length(); j++) {
                if (pattern.matcher(new Metered(FRONTS.charAt(j) + longer)).matches()) {
                    return true;
                }
            }
        }
        return false;
    }

    private int indexOfTerminator(byte[] bytes, int from, int to) {
        byte[] wanted = terminator.getBytes(StandardCharsets.ISO_8859_1);
        for (int i = from; i <= to - wanted.length; i++) {
            if (Arrays.equals(bytes, i, i + wanted.length, wanted, 0, wanted.length)) {
                return i;
            }
        }
        return -1;
    }

    @Override
    public byte[] print(Content content, Scale scale) {
        String line;
        if (content instanceof Content.Number number) {
            line = template.print(values(number.value(), number.mark(), number.time_s(), scale));
        } else {
            line = statusTemplate.print(Map.of("status", ((Content.Word) content).word()));
        }
        return (line + terminator).getBytes(StandardCharsets.ISO_8859_1);
    }

    private Map<String, Object> values(double value, boolean mark, double time_s, Scale scale) {
        Map<String, Object> values = new HashMap<>();
        values.put("reading", value);
        values.put("unit", scale.word().orElse(""));
        values.put("mark", mark ? 1 : 0);
        time.ifPresent(unit -> values.put("time", unit.count(time_s)));
        return values;
    }

    /** Tries the template on a reading of zero; throws an IllegalArgumentException that says what is wrong. */
    void checkTemplates(Scale scale) {
        Map<String, Object> example = values(0, false, 0, scale);
        template.check(example.keySet(), example);
        statusTemplate.check(Set.of("status"), Map.of("status", "word"));
    }

    private static final class TooManySteps extends RuntimeException {
        TooManySteps() {
            super(null, null, false, false);
        }
    }

    /** Text that counts how often a pattern looks at it, so that no pattern hangs the program. */
    private static final class Metered implements CharSequence {
        private final CharSequence text;
        private int steps;

        Metered(CharSequence text) {
            this.text = text;
        }

        @Override
        public char charAt(int index) {
            if (++steps > MOST_STEPS) {
                throw new TooManySteps();
            }
            return text.charAt(index);
        }

        @Override
        public int length() {
            return text.length();
        }

        @Override
        public CharSequence subSequence(int start, int end) {
            return text.subSequence(start, end);
        }

        @Override
        public String toString() {
            return text.toString();
        }
    }
}
