package sweepbook.acquisition.wire;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;

/** Reads how text lines are made up. */
final class TextLinesReader {
    private static final Pattern GROUP = Pattern.compile("\\(\\?<(\\w+)>");
    /** Long enough for any pattern that a person can read. */
    private static final int LONGEST_PATTERN = 1000;

    private TextLinesReader() {}

    static TextLines read(JsonFields fields, Scale scale) throws JsonFault {
        String terminator = fields.text("terminator");
        if (terminator.isEmpty() || terminator.length() > 8) {
            throw fields.fault("terminator", "must be 1 to 8 characters, such as \\r\\n");
        }
        Pattern pattern = pattern(fields);
        Set<String> groups = groups(fields, pattern);
        Optional<TimeUnit> time = groups.contains("time")
                ? Optional.of(fields.choice("timeUnit", List.of(TimeUnit.values()), TimeUnit::symbol))
                : Optional.empty();
        Optional<Checksum> checksum = groups.contains("check")
                ? Optional.of(ChecksumReader.read(fields.object("checksum")))
                : Optional.empty();
        char decimalMark = fields.has("decimalMark")
                ? fields.choice("decimalMark", List.of('.', ','), mark -> mark.toString())
                : '.';
        String plain = "{reading:%." + scale.decimals() + "f}";
        TextLines format = new TextLines(
                terminator,
                pattern,
                decimalMark,
                groups,
                time,
                checksum,
                new Template(fields.optionalText("template").orElse(plain), decimalMark),
                new Template(fields.optionalText("statusTemplate").orElse("{status}"), decimalMark));
        fields.nothingElse();
        try {
            format.checkTemplates(scale);
        } catch (IllegalArgumentException e) {
            throw fields.fault("template", e.getMessage());
        }
        return format;
    }

    private static Pattern pattern(JsonFields fields) throws JsonFault {
        String text = fields.text("pattern");
        if (text.length() > LONGEST_PATTERN) {
            throw fields.fault("pattern", "is longer than " + LONGEST_PATTERN + " characters");
        }
        try {
            return Pattern.compile(text);
        } catch (PatternSyntaxException e) {
            throw fields.fault("pattern", e.getDescription() + " at character " + e.getIndex());
        }
    }

    private static Set<String> groups(JsonFields fields, Pattern pattern) throws JsonFault {
        Set<String> groups = new TreeSet<>();
        Matcher named = GROUP.matcher(pattern.pattern());
        while (named.find()) {
            groups.add(named.group(1));
        }
        if (!groups.contains("reading")) {
            throw fields.fault("pattern", "needs a group (?<reading>...)");
        }
        for (String group : groups) {
            if (!TextLines.GROUPS.contains(group)) {
                throw fields.fault("pattern", "group '" + group + "' is not one of " + new TreeSet<>(TextLines.GROUPS));
            }
        }
        return groups;
    }
}
