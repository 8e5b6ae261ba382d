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
 * @param decimalMark the point or comma in front of the decimals
 * @param groups the named groups of the pattern, out of {@link #GROUPS}
 * @param time the unit of the group {@code time}
 * @param checksum over the line as far as the group {@code check}, which holds it in hexadecimal digits
 * @param template how a line with a value is printed
 * @param statusTemplate how a line with a status word is printed
 */
record TextLines(
        String terminator,
        Pattern pattern,
        char decimalMark,
        Set<String> groups,
        Optional<TimeUnit> time,
        Optional<Checksum> checksum,
        Template template,
        Template statusTemplate)
        implements FrameFormat {
    /** Indicators send a few dozen characters a line; this many without a terminator are no line. */
    static final int LONGEST_LINE = 256;

    static final Set<String> GROUPS = Set.of("reading", "unit", "mark", "status", "time", "channel", "check");

    /** Blanks pad a number; one among its digits is a character that was damaged. */
    private static final Pattern NUMBER = Pattern.compile("([+-]?) *((?:\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][+-]?\\d+)?)");

    private static final String FRONTS = "0123456789+-";

    @Override
    public boolean isChecked() {
        return checksum.isPresent();
    }

    @Override
    public boolean hasChannels() {
        return groups.contains("channel");
    }

    @Override
    public boolean hasMarks() {
        return groups.contains("mark");
    }

    @Override
    public Scan scan(byte[] bytes, int from, int to, Front front) {
        int last = Math.min(to, from + LONGEST_LINE + terminator.length());
        int end = indexOfTerminator(bytes, from, last);
        if (end < 0) {
            return last < from + LONGEST_LINE + terminator.length()
                    ? Scan.NeedMore.NEED_MORE
                    : noise(LONGEST_LINE, "no end of line within " + LONGEST_LINE + " bytes", Front.REST_OF_NOISE);
        }
        int length = end - from + terminator.length();
        if (front == Front.REST_OF_NOISE) {
            return noise(length, "the rest of a line that was too long", Front.FRAME_BEGINS);
        }
        String line = new String(bytes, from, end - from, StandardCharsets.ISO_8859_1);
        try {
            return scan(line, length, front == Front.UNKNOWN);
        } catch (Metered.TooManySteps e) {
            return noise(length, "the pattern runs wild on this line; make it simpler", Front.FRAME_BEGINS);
        }
    }

    private Scan scan(String line, int length, boolean joined) {
        Matcher matcher = pattern.matcher(new Metered(line));
        if (!matcher.matches()) {
            return noise(length, "does not fit the pattern", Front.FRAME_BEGINS);
        }
        if (joined && checksum.isEmpty() && couldBeLonger(line)) {
            return noise(length, "the first line, and its front may be missing", Front.FRAME_BEGINS);
        }
        if (checksum.isPresent() && !checkHolds(line, matcher)) {
            return noise(length, "its checksum does not fit", Front.FRAME_BEGINS);
        }
        return content(matcher)
                .<Scan>map(content -> new Scan.Frame(length, content))
                .orElseGet(() -> noise(length, "a number in it cannot be read", Front.FRAME_BEGINS));
    }

    private static Scan noise(int length, String why, Front next) {
        return new Scan.Noise(length, why, false, next);
    }

    private boolean checkHolds(String line, Matcher matcher) {
        String found = group(matcher, "check");
        return !found.isEmpty() && found.equalsIgnoreCase(checkOf(line.substring(0, matcher.start("check"))));
    }

    private String checkOf(String covered) {
        byte[] bytes = covered.getBytes(StandardCharsets.ISO_8859_1);
        Checksum sum = checksum.orElseThrow();
        return String.format("%0" + 2 * sum.bytes() + "X", sum.of(bytes, 0, bytes.length));
    }

    private Optional<Content> content(Matcher matcher) {
        String channel = group(matcher, "channel");
        String word = group(matcher, "status");
        if (!word.isEmpty()) {
            return Optional.of(new Content.Word(word, channel));
        }
        Matcher number = NUMBER.matcher(group(matcher, "reading").strip().replace(decimalMark, '.'));
        if (!number.matches()) {
            return Optional.empty();
        }
        try {
            double value = Double.parseDouble(number.group(1) + number.group(2));
            double time_s = Double.NaN;
            if (time.isPresent()) {
                time_s =
                        time.get().seconds(Long.parseLong(group(matcher, "time").strip()));
            }
            String mark = group(matcher, "mark");
            boolean marked = !mark.isBlank() && !mark.equals("0");
            return Double.isFinite(value)
                    ? Optional.of(new Content.Number(value, group(matcher, "unit"), marked, time_s, channel))
                    : Optional.empty();
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }

    private String group(Matcher matcher, String name) {
        String text = groups.contains(name) ? matcher.group(name) : null;
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
            line = print(template, values(number, scale));
        } else {
            line = print(statusTemplate, values((Content.Word) content));
        }
        return (line + terminator).getBytes(StandardCharsets.ISO_8859_1);
    }

    private String print(Template line, Map<String, Object> values) {
        if (checksum.isPresent()) {
            values.put("check", checkOf(line.before("check").print(values)));
        }
        return line.print(values);
    }

    private Map<String, Object> values(Content.Number number, Scale scale) {
        Map<String, Object> values = new HashMap<>();
        values.put("reading", number.value());
        values.put("unit", scale.word().orElse(""));
        values.put("mark", number.mark() ? 1 : 0);
        values.put("channel", number.channel());
        time.ifPresent(unit -> values.put("time", unit.count(number.time_s())));
        return values;
    }

    private static Map<String, Object> values(Content.Word word) {
        return new HashMap<>(Map.of("status", word.word(), "channel", word.channel()));
    }

    /** Tries the templates on an example; throws an IllegalArgumentException that says what is wrong. */
    void checkTemplates(Scale scale) {
        check(template, values(new Content.Number(0, "", false, 0, ""), scale));
        check(statusTemplate, values(new Content.Word("", "")));
    }

    private void check(Template line, Map<String, Object> example) {
        checksum.ifPresent(sum -> example.put("check", checkOf("")));
        line.check(example);
    }
}
