package sweepbook.acquisition.wire;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.LineSettings.Parity;
import sweepbook.acquisition.wire.LineSettings.StopBits;

/** Reads a profile from its JSON; every fault names the line and the field. */
final class ProfileReader {
    private ProfileReader() {}

    static IndicatorProfile read(String source, String json) throws JsonFault {
        JsonFields fields = JsonFields.parse(source, json);
        fields.optionalText("$schema");
        String name = fields.text("name");
        String description = fields.text("description");
        LineSettings line = line(fields.object("line"));
        List<Scale> scales = scales(fields);
        FrameFormat format = format(fields, scales);
        Map<String, IndicatorStatus> statusWords = statusWords(fields);
        Optional<String> channel = fields.optionalText("channel");
        if (format.hasChannels() != channel.isPresent()) {
            throw fields.fault(
                    "channel",
                    format.hasChannels()
                            ? "is missing: frames say their channel, and readings of several must not be mixed"
                            : "is given, but frames do not say their channel");
        }
        Optional<JsonFields> request = fields.optionalObject("request");
        Optional<Request> asked = request.isPresent() ? Optional.of(request(request.get())) : Optional.empty();
        boolean onButton = fields.has("onButton") && fields.flag("onButton");
        if (onButton && asked.isPresent()) {
            throw fields.fault("onButton", "an indicator that is asked does not wait for its button; keep one of both");
        }
        fields.nothingElse();
        return new IndicatorProfile(name, description, line, format, scales, statusWords, channel, asked, onButton);
    }

    private static LineSettings line(JsonFields fields) throws JsonFault {
        LineSettings line = new LineSettings(
                fields.integer("speed_baud", 50, 12_000_000),
                fields.integer("dataBits", 5, 8),
                fields.choice("parity", List.of(Parity.values()), ProfileReader::word),
                stopBits(fields),
                fields.flag("dtr"),
                fields.flag("rts"));
        fields.nothingElse();
        return line;
    }

    /** Constants are written in lower case. */
    static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT);
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

    private static FrameFormat format(JsonFields profile, List<Scale> scales) throws JsonFault {
        boolean text = profile.has("text");
        if (text == profile.has("fixed")) {
            throw profile.fault(text ? "fixed" : "text", "a profile has either text or fixed, to say what frames are");
        }
        return text
                ? TextLinesReader.read(profile.object("text"), scales.get(0))
                : FixedFramesReader.read(profile.object("fixed"), scales);
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
