package sweepbook.acquisition.learn;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.Profiles;

/**
 * Proposes a profile from bytes that came while the plunger was moved: a bundled one that reads them, or lines of text
 * whose shape is found. It does not guess: where two numbers could be the reading, or nothing says the unit, it says so.
 */
public final class Learner {
    /** Fewer lines do not show which parts change. */
    private static final int FEWEST_LINES = 8;
    /** A few lines are cut or damaged in any recording. */
    private static final double ENOUGH = 0.9;

    /** Of those that are equally common the first is taken. */
    private static final List<String> TERMINATORS = List.of("\r\n", "\n", "\r");

    private Learner() {}

    /**
     * What the bytes tell.
     *
     * @param line how the serial line was set when they came
     * @param unit the unit that the display shows, as the person says; needed where frames do not say
     * @param number which of several changing numbers of a line is the reading, from 1, as the person says
     */
    public static Learned learn(byte[] bytes, LineSettings line, Optional<LengthUnit> unit, Optional<Integer> number) {
        Optional<Learned> packed = checked(bytes);
        if (packed.isPresent()) {
            return packed.get();
        }
        String text = new String(bytes, StandardCharsets.ISO_8859_1);
        Optional<String> terminator = TERMINATORS.stream()
                .filter(text::contains)
                .max(Comparator.comparing(end -> text.split(end, -1).length));
        if (terminator.isEmpty()) {
            return new Learned.Refused("no line ends in what came, and no bundled profile reads it; check the speed, or"
                    + " write a profile by hand from the device's description");
        }
        List<String> lines = lines(text, terminator.get());
        if (lines.size() < FEWEST_LINES) {
            return new Learned.Refused(
                    "only " + lines.size() + " lines of one shape came; keep the plunger moving longer");
        }
        return fromLines(bytes, lines, terminator.get(), line, unit, number);
    }

    /** A bundled profile whose frames carry a check: that it holds again and again is no accident. */
    private static Optional<Learned> checked(byte[] bytes) {
        for (String name : Profiles.BUNDLED) {
            IndicatorProfile profile = Profiles.bundled(name);
            List<Double> readings = new ArrayList<>();
            double share = share(profile, bytes, readings);
            if (profile.isChecked() && share >= ENOUGH && readings.size() >= FEWEST_LINES) {
                return Optional.of(new Learned.Proposed(profile, Profiles.json(name), share, readings));
            }
        }
        return Optional.empty();
    }

    /** The lines of the commonest number of parts, without the first and the last, which may be cut. */
    private static List<String> lines(String text, String terminator) {
        List<String> all = new ArrayList<>(Arrays.asList(text.split(terminator, -1)));
        List<String> whole = all.size() < 3 ? List.of() : all.subList(1, all.size() - 1);
        Map<Integer, List<String>> byParts = whole.stream()
                .filter(line -> line.chars().allMatch(c -> c >= ' ' && c < 0x7f))
                .filter(line -> line.length() < 80)
                .collect(Collectors.groupingBy(line -> LineShape.cut(line).size()));
        return byParts.entrySet().stream()
                .filter(entry -> entry.getKey() > 1)
                .max(Comparator.comparing(entry -> entry.getValue().size()))
                .map(Map.Entry::getValue)
                .orElse(List.of());
    }

    private static Learned fromLines(
            byte[] bytes,
            List<String> lines,
            String terminator,
            LineSettings line,
            Optional<LengthUnit> unit,
            Optional<Integer> number) {
        LineShape shape = LineShape.of(lines);
        List<Integer> candidates = shape.candidates();
        if (candidates.isEmpty()) {
            return new Learned.Refused("no number in the lines changes ('" + lines.get(0)
                    + "'); move the plunger up and down while the bytes are watched");
        }
        if (candidates.size() > 1 && number.isEmpty()) {
            return new Learned.Refused("several numbers in a line change, and each could be the reading ("
                    + candidates.stream()
                            .map(i -> "'" + shape.column(i).get(0) + "'")
                            .collect(Collectors.joining(", "))
                    + "); look which of them the display shows and say --number 1 to " + candidates.size());
        }
        if (number.isPresent() && (number.get() < 1 || number.get() > candidates.size())) {
            return new Learned.Refused("--number must be from 1 to " + candidates.size());
        }
        int reading = candidates.get(number.orElse(1) - 1);
        Set<String> words = shape.unitWords(reading);
        if (words.isEmpty() && unit.isEmpty()) {
            return new Learned.Refused(
                    "'" + lines.get(0).strip() + "' does not say its unit, and millimetres and inches"
                            + " fit equally well; look at the display and say --unit mm or --unit in");
        }
        return proposed(bytes, shape, reading, terminator, line, unit, words);
    }

    private static Learned proposed(
            byte[] bytes,
            LineShape shape,
            int reading,
            String terminator,
            LineSettings line,
            Optional<LengthUnit> unit,
            Set<String> words) {
        String json = json(shape, reading, terminator, line, unit, words);
        try {
            IndicatorProfile profile = Profiles.parse("the proposed profile", json);
            List<Double> readings = new ArrayList<>();
            double share = share(profile, bytes, readings);
            if (share < ENOUGH) {
                return new Learned.Refused(String.format(
                        Locale.ROOT,
                        "the lines have no one shape: the best pattern reads only %.0f %% of them; check speed and"
                                + " parity",
                        100 * share));
            }
            return new Learned.Proposed(profile, json, share, readings);
        } catch (JsonFault e) {
            return new Learned.Refused("no profile can be made of the lines: " + e.getMessage());
        }
    }

    private static String json(
            LineShape shape,
            int reading,
            String terminator,
            LineSettings line,
            Optional<LengthUnit> unit,
            Set<String> words) {
        ObjectMapper mapper = new ObjectMapper();
        ObjectNode root = mapper.createObjectNode();
        root.put("name", "learned");
        root.put("description", "Learned from bytes such as " + String.join("", sample(shape)) + ".");
        root.putObject("line")
                .put("speed_baud", line.speed_baud())
                .put("dataBits", line.dataBits())
                .put("parity", line.parity().name().toLowerCase(Locale.ROOT))
                .put("stopBits", line.stopBits().bits())
                .put("dtr", line.dtr())
                .put("rts", line.rts());
        root.putObject("text").put("terminator", terminator).put("pattern", shape.pattern(reading));
        double step = step(shape.column(reading));
        Function<LengthUnit, ObjectNode> scale =
                of -> mapper.createObjectNode().put("unit", of.symbol()).put("resolution", step);
        var units = root.putArray("units");
        unit.filter(u -> words.isEmpty()).ifPresent(u -> units.add(scale.apply(u)));
        words.forEach(word -> units.add(scale.apply(LengthUnit.of(word)).put("word", word)));
        try {
            return mapper.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n";
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of plain values is always JSON", e);
        }
    }

    private static List<String> sample(LineShape shape) {
        return shape.columns().stream().map(column -> column.get(0)).toList();
    }

    /** The last decimal, or five of it where it is only ever 0 or 5. */
    private static double step(List<String> numbers) {
        int decimals = numbers.stream()
                .mapToInt(n -> n.contains(".") ? n.length() - n.indexOf('.') - 1 : 0)
                .max()
                .orElse(0);
        boolean fives = numbers.stream().allMatch(n -> n.endsWith("0") || n.endsWith("5"));
        return BigDecimal.valueOf(fives ? 5 : 1, decimals).doubleValue();
    }

    /** What a profile whose frames are asked for makes of the answers; a few bad ones may be among them. */
    static Optional<Learned> answered(String name, byte[] bytes) {
        List<Double> readings = new ArrayList<>();
        IndicatorProfile profile = Profiles.bundled(name);
        double share = share(profile, bytes, readings);
        return share >= ENOUGH && readings.size() >= FEWEST_LINES
                ? Optional.of(new Learned.Proposed(profile, Profiles.json(name), share, readings))
                : Optional.empty();
    }

    /** Share of the bytes' frames that the profile decodes; the ends do not count, they may be cut. */
    private static double share(IndicatorProfile profile, byte[] bytes, List<Double> readings) {
        FrameDecoder decoder = new FrameDecoder(profile);
        decoder.feed(bytes, 0, bytes.length);
        int faults = -1;
        for (Decoded d = decoder.next(); d != Decoded.NeedMore.NEED_MORE; d = decoder.next()) {
            if (d instanceof Decoded.Value value) {
                readings.add(value.value());
            } else if (d instanceof Decoded.Fault) {
                faults++;
            }
        }
        return readings.isEmpty() ? 0 : (double) readings.size() / (readings.size() + Math.max(0, faults));
    }
}
