package sweepbook.acquisition.learn;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
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
import java.util.stream.Collectors;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.learn.Learned.Proposed;
import sweepbook.acquisition.learn.Learned.Refused;
import sweepbook.acquisition.learn.Learned.Undecided;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.acquisition.wire.Request;

/**
 * Proposes a profile from bytes that came while the plunger was moved: a bundled one that reads them, or lines of text
 * whose shape is found. It does not guess: where two numbers could be the reading, or nothing says the unit, it says so.
 */
public final class Learner {
    /** Fewer do not show which parts change, nor enough to compare with the display. */
    private static final int FEWEST = 10;
    /** As few as that come at the right speed only. */
    private static final int NO_ACCIDENT = 3;
    /** A few lines are cut or damaged in any recording. */
    private static final double ENOUGH = 0.9;
    /** Longer lines hold more than a reading. */
    private static final int LONGEST_LINE = 80;

    /** Of those that are equally common the first is taken. */
    private static final List<String> TERMINATORS = List.of("\r\n", "\n\r", "\n", "\r");

    private static final ObjectMapper MAPPER = new ObjectMapper();

    private final LineSettings line;
    private final boolean lineKnown;
    private final Optional<Request> request;
    private final Hints hints;

    /**
     * @param line how the serial line was set when the bytes came
     * @param lineKnown whether there was a serial line, and it tells the indicator's settings
     * @param request what they were the answers to
     */
    public Learner(LineSettings line, boolean lineKnown, Optional<Request> request, Hints hints) {
        this.line = line;
        this.lineKnown = lineKnown;
        this.request = request;
        this.hints = hints;
    }

    /** What the bytes tell. */
    public Learned learn(byte[] bytes) {
        Optional<Learned> packed = checked(bytes);
        if (packed.isPresent()) {
            return packed.get();
        }
        String text = new String(bytes, StandardCharsets.ISO_8859_1);
        Optional<String> terminator = TERMINATORS.stream()
                .filter(text::contains)
                .max(Comparator.comparing(end -> text.split(end, -1).length));
        if (terminator.isEmpty()) {
            return new Refused("no line ends in what came, and no bundled profile reads it; check the speed, or"
                    + " write a profile by hand from the device's description");
        }
        List<String> all = printable(text, terminator.get());
        boolean points = all.stream().anyMatch(line -> line.matches(".*\\d\\.\\d.*"));
        boolean commas = all.stream().anyMatch(line -> line.matches(".*\\d,\\d.*"));
        if (commas && !points && hints.decimalMark().isEmpty() && all.size() >= NO_ACCIDENT) {
            return new Undecided("'" + all.get(0).strip() + "' may hold one number with a decimal comma, or two with a"
                    + " comma between them; look at the display and say --decimal-mark comma or point");
        }
        char mark = hints.decimalMark().orElse('.');
        List<String> lines = ofOneShape(all, mark);
        if (lines.size() < FEWEST) {
            String why = "only " + lines.size() + " lines of one shape came; keep the plunger moving longer, or press"
                    + " the indicator's button more often";
            return lines.size() < NO_ACCIDENT ? new Refused(why) : new Undecided(why);
        }
        return fromLines(bytes, lines, mark, terminator.get());
    }

    /** A bundled profile whose frames carry a check: that it holds again and again is no accident. */
    private Optional<Learned> checked(byte[] bytes) {
        for (String name : Profiles.BUNDLED) {
            IndicatorProfile profile = Profiles.bundled(name);
            List<Decoded.Value> values = new ArrayList<>();
            double share = share(profile, bytes, values);
            boolean believed = profile.isChecked()
                    || profile.request().isPresent() && profile.request().equals(request);
            if (believed && share >= ENOUGH && values.size() >= FEWEST) {
                return Optional.of(atThisLine(name, share, values));
            }
        }
        return Optional.empty();
    }

    /** The bundled profile, at the settings at which it was heard. */
    private Learned atThisLine(String name, double share, List<Decoded.Value> values) {
        try {
            ObjectNode root = (ObjectNode) MAPPER.readTree(Profiles.json(name));
            String json = Profiles.json(name);
            if (lineKnown && !isAlike(Profiles.bundled(name).line())) {
                root.set("line", lineNode());
                root.put("description", "As " + name + ", but heard at " + line.speed_baud() + " baud.");
                json = text(root);
            }
            return new Proposed(Profiles.parse(name, json), json, share, values);
        } catch (JsonProcessingException | JsonFault e) {
            throw new IllegalStateException("the bundled profile '" + name + "' is faulty", e);
        }
    }

    /** Whether bytes look the same; more stop bits than were listened for do no harm. */
    private boolean isAlike(LineSettings other) {
        return other.speed_baud() == line.speed_baud()
                && other.dataBits() == line.dataBits()
                && other.parity() == line.parity();
    }

    /** The lines that a person could read, without the first and the last, which may be cut. */
    private static List<String> printable(String text, String terminator) {
        List<String> all = Arrays.asList(text.split(terminator, -1));
        return all.size() < 3
                ? List.of()
                : all.subList(1, all.size() - 1).stream()
                        .filter(line -> line.length() < LONGEST_LINE)
                        .filter(line -> line.chars().allMatch(c -> c >= ' ' && c < 0x7f || c == '\t'))
                        .toList();
    }

    /** Those of the commonest number of parts. */
    private static List<String> ofOneShape(List<String> lines, char decimalMark) {
        Map<Integer, List<String>> byParts = lines.stream()
                .collect(Collectors.groupingBy(
                        line -> LineShape.cut(line, decimalMark).size()));
        return byParts.entrySet().stream()
                .filter(entry -> entry.getKey() > 1)
                .max(Comparator.comparing(entry -> entry.getValue().size()))
                .map(Map.Entry::getValue)
                .orElse(List.of());
    }

    private Learned fromLines(byte[] bytes, List<String> lines, char decimalMark, String terminator) {
        LineShape shape = LineShape.of(lines, decimalMark);
        List<Integer> candidates = shape.candidates();
        if (candidates.isEmpty()) {
            return new Undecided("no number in the lines changes ('" + lines.get(0)
                    + "'); move the plunger up and down while the bytes are watched");
        }
        if (candidates.size() > 1 && hints.number().isEmpty()) {
            return new Undecided("several numbers in a line change, and each could be the reading ("
                    + candidates.stream()
                            .map(i -> "'" + shape.column(i).get(0) + "'")
                            .collect(Collectors.joining(", "))
                    + "); look which of them the display shows and say --number 1 to " + candidates.size());
        }
        int number = hints.number().orElse(1);
        if (number < 1 || number > candidates.size()) {
            return new Undecided("--number must be from 1 to " + candidates.size());
        }
        int reading = candidates.get(number - 1);
        Optional<Integer> address = shape.address(reading);
        if (address.isPresent() && hints.channel().isEmpty()) {
            return new Undecided("in '" + lines.get(0).strip() + "' "
                    + String.join(" and ", shape.different(address.get()))
                    + " take turns, as where several indicators share a line; say --channel with the one that is"
                    + " wanted, or --channel " + Hints.ANY + " if it is no address");
        }
        Map<String, List<String>> byWord = shape.byUnitWord(reading);
        if (byWord.isEmpty() && hints.unit().isEmpty()) {
            return new Undecided("'" + lines.get(0).strip() + "' does not say its unit, and millimetres and inches"
                    + " fit equally well; look at the display and say --unit mm or --unit in");
        }
        Optional<Integer> channel = address.filter(i -> !hints.channel().equals(Optional.of(Hints.ANY)));
        return proposed(bytes, shape, reading, channel, terminator);
    }

    private Learned proposed(byte[] bytes, LineShape shape, int reading, Optional<Integer> address, String terminator) {
        try {
            String json = json(shape, reading, address, terminator);
            IndicatorProfile profile = Profiles.parse("the proposed profile", json);
            List<Decoded.Value> values = new ArrayList<>();
            double share = share(profile, bytes, values);
            if (share < ENOUGH) {
                return new Refused(String.format(
                        Locale.ROOT,
                        "the lines have no one shape: the best pattern reads only %.0f %% of them; check speed and"
                                + " parity",
                        100 * share));
            }
            return new Proposed(profile, json, share, values);
        } catch (JsonProcessingException | JsonFault e) {
            return new Refused("no profile can be made of the lines: " + e.getMessage());
        }
    }

    private String json(LineShape shape, int reading, Optional<Integer> address, String terminator)
            throws JsonProcessingException {
        ObjectNode root = MAPPER.createObjectNode();
        String sample = shape.columns().stream().map(column -> column.get(0)).collect(Collectors.joining());
        root.put("name", "learned").put("description", "Learned from lines such as '" + sample + "'.");
        root.set("line", lineNode());
        ObjectNode text = root.putObject("text");
        text.put("terminator", terminator).put("pattern", shape.pattern(reading, address));
        if (shape.decimalMark() == ',') {
            text.put("decimalMark", ",");
        }
        address.ifPresent(i -> root.put("channel", hints.channel().orElseThrow()));
        ArrayNode units = root.putArray("units");
        Map<String, List<String>> byWord = shape.byUnitWord(reading);
        if (byWord.isEmpty()) {
            unit(units, hints.unit().orElseThrow(), shape.column(reading), shape.decimalMark());
        }
        byWord.forEach((word, numbers) -> unit(units, LineShape.unitOf(word), numbers, shape.decimalMark())
                .put("word", word));
        request.ifPresent(asked -> root.putObject("request")
                .put("text", asked.text())
                .put("interval_s", asked.interval_s())
                .put("timeout_s", asked.timeout_s())
                .put("retries", asked.retries()));
        return text(root);
    }

    private static ObjectNode unit(ArrayNode units, LengthUnit unit, List<String> numbers, char decimalMark) {
        return units.addObject().put("unit", unit.symbol()).put("resolution", step(numbers, decimalMark));
    }

    private ObjectNode lineNode() {
        return MAPPER.createObjectNode()
                .put("speed_baud", line.speed_baud())
                .put("dataBits", line.dataBits())
                .put("parity", line.parity().name().toLowerCase(Locale.ROOT))
                .put("stopBits", line.stopBits().bits())
                .put("dtr", line.dtr())
                .put("rts", line.rts());
    }

    private static String text(ObjectNode root) throws JsonProcessingException {
        return MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(root) + "\n";
    }

    /** The last decimal, or five of it where it is only ever 0 or 5. */
    private static double step(List<String> numbers, char decimalMark) {
        int decimals = numbers.stream()
                .mapToInt(n -> n.indexOf(decimalMark) < 0 ? 0 : n.length() - n.indexOf(decimalMark) - 1)
                .max()
                .orElse(0);
        boolean fives = numbers.stream().allMatch(n -> n.endsWith("0") || n.endsWith("5"));
        return BigDecimal.valueOf(fives ? 5 : 1, decimals).doubleValue();
    }

    /** Share of the bytes' frames that the profile decodes; the ends do not count, they may be cut. */
    private static double share(IndicatorProfile profile, byte[] bytes, List<Decoded.Value> values) {
        FrameDecoder decoder = new FrameDecoder(profile);
        decoder.feed(bytes, 0, bytes.length);
        int faults = -1;
        for (Decoded d = decoder.next(); d != Decoded.NeedMore.NEED_MORE; d = decoder.next()) {
            if (d instanceof Decoded.Value value) {
                values.add(value);
            } else if (d instanceof Decoded.Fault) {
                faults++;
            }
        }
        return values.isEmpty() ? 0 : (double) values.size() / (values.size() + Math.max(0, faults));
    }
}
