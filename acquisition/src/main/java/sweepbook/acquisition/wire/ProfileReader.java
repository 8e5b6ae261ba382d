package sweepbook.acquisition.wire;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.LineSettings.Parity;
import sweepbook.acquisition.wire.LineSettings.StopBits;

/** Reads a profile from its JSON; every fault names the line and the field. */
final class ProfileReader {
    private static final Pattern GROUP = Pattern.compile("\\(\\?<(\\w+)>");

    private ProfileReader() {}

    static IndicatorProfile read(String source, String json) throws JsonFault {
        JsonFields fields = JsonFields.parse(source, json);
        String name = fields.text("name");
        String description = fields.text("description");
        LineSettings line = line(fields.object("line"));
        List<Scale> scales = scales(fields);
        TextLines format = text(fields.object("text"), scales);
        Map<String, IndicatorStatus> statusWords = statusWords(fields);
        Optional<Request> request = Optional.empty();
        if (fields.has("request")) {
            request = Optional.of(request(fields.object("request")));
        }
        fields.optionalText("$schema");
        fields.nothingElse();
        return new IndicatorProfile(name, description, line, format, scales, statusWords, request);
    }

    private static LineSettings line(JsonFields fields) throws JsonFault {
        LineSettings line = new LineSettings(
                fields.integer("speed_baud", 50, 12_000_000),
                fields.integer("dataBits", 5, 8),
                fields.choice("parity", List.of(Parity.values()), p -> p.name().toLowerCase(Locale.ROOT)),
                stopBits(fields),
                fields.flag("dtr"),
                fields.flag("rts"));
        fields.nothingElse();
        return line;
    }

    private static StopBits stopBits(JsonFields fields) throws JsonFault {
        double bits = fields.number("stopBits", 1, 2);
        for (StopBits choice : StopBits.values()) {
            if (choice.bits() == bits) {
                return choice;
            }
        }
        throw fields.fault("stopBits", "must be 1, 1.5 or 2, not " + bits);
    }

    private static List<Scale> scales(JsonFields profile) throws JsonFault {
        List<Scale> scales = new ArrayList<>();
        for (JsonFields fields : profile.objects("units")) {
            LengthUnit unit = fields.choice("unit", List.of(LengthUnit.values()), LengthUnit::symbol);
            scales.add(new Scale(unit, fields.number("resolution", 1e-7, 1), fields.optionalText("word")));
            fields.nothingElse();
        }
        if (scales.isEmpty()) {
            throw profile.fault("units", "must hold at least one unit");
        }
        return scales;
    }

    private static TextLines text(JsonFields fields, List<Scale> scales) throws JsonFault {
        String terminator = fields.text("terminator");
        if (terminator.isEmpty()) {
            throw fields.fault("terminator", "must not be empty");
        }
        Pattern pattern;
        try {
            pattern = Pattern.compile(fields.text("pattern"));
        } catch (PatternSyntaxException e) {
            throw fields.fault("pattern", e.getDescription() + " at character " + e.getIndex());
        }
        Set<String> groups = groups(fields, pattern);
        Optional<TimeUnit> time = groups.contains("time")
                ? Optional.of(fields.choice("timeUnit", List.of(TimeUnit.values()), TimeUnit::symbol))
                : Optional.empty();
        String reading = "{reading:%." + scales.get(0).decimals() + "f}";
        Template template = new Template(fields.optionalText("template").orElse(reading));
        Template statusTemplate =
                new Template(fields.optionalText("statusTemplate").orElse("{status}"));
        TextLines format = new TextLines(terminator, pattern, time, template, statusTemplate);
        try {
            format.checkTemplates(scales.get(0));
        } catch (IllegalArgumentException e) {
            throw fields.fault("template", e.getMessage());
        }
        fields.nothingElse();
        return format;
    }

    private static Set<String> groups(JsonFields fields, Pattern pattern) throws JsonFault {
        Set<String> groups = new HashSet<>();
        Matcher named = GROUP.matcher(pattern.pattern());
        while (named.find()) {
            groups.add(named.group(1));
        }
        if (!groups.contains("reading")) {
            throw fields.fault("pattern", "needs a group (?<reading>...)");
        }
        for (String group : groups) {
            if (!TextLines.GROUPS.contains(group)) {
                throw fields.fault("pattern", "group '" + group + "' is not one of " + TextLines.GROUPS);
            }
        }
        return groups;
    }

    private static Map<String, IndicatorStatus> statusWords(JsonFields profile) throws JsonFault {
        Map<String, IndicatorStatus> words = new HashMap<>();
        Optional<JsonFields> fields = profile.optionalObject("statusWords");
        if (fields.isPresent()) {
            for (String word : fields.get().names()) {
                words.put(word, fields.get().choice(word, List.of(IndicatorStatus.values()), IndicatorStatus::word));
            }
        }
        return words;
    }

    private static Request request(JsonFields fields) throws JsonFault {
        Request request = new Request(
                fields.text("text"),
                fields.number("interval_s", 0, 3600),
                fields.number("timeout_s", 0.001, 3600),
                fields.integer("retries", 0, 100));
        fields.nothingElse();
        return request;
    }
}
