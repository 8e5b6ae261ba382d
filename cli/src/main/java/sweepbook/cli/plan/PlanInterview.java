package sweepbook.cli.plan;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.Profiles;

/** Asks for machine, indicator and what is to be measured, and puts a plan together from the bundled measurements. */
public final class PlanInterview {
    private static final List<String> UNITS = List.of("mm", "in");

    private final Interview ask;
    private final ObjectNode plan = JsonNodeFactory.instance.objectNode();
    private LengthUnit unit;
    private String pressing;

    public PlanInterview(Interview.Answers answers) {
        this.ask = new Interview(answers);
    }

    /** The plan as JSON text. */
    public String text() throws IOException {
        ask.tell(
                "Enter takes what stands in [ ]. Lengths are in the machine's unit unless mm or in stands behind them.");
        plan.put("plan", ask.text("What shall the plan be called?"));
        machine(plan.putObject("machine"));
        indicator(plan.putObject("indicator"));
        ask.optional("By how much may the stand or the part creep in an hour, such as 0.01?", this::positive)
                .ifPresent(drift -> plan.putObject("surroundings").put("driftPerHour", drift));
        ArrayNode features = plan.putArray("features");
        ArrayNode offsets = plan.putArray("offsets");
        String tilt =
                ask.choice("About which axis does the head tilt: A, along X, or B, along Y?", List.of("A", "B"), "A");
        Set<String> asked = new HashSet<>();
        for (String name : chosen()) {
            ObjectNode part =
                    PlanParts.in(unit, tilt.equals("A") ? PlanParts.part(name) : Mirrored.aboutB(PlanParts.part(name)));
            for (JsonNode feature : part.get("features")) {
                if (asked.add(feature.get("name").asText())) {
                    features.add(feature((ObjectNode) feature));
                }
            }
            for (JsonNode offset : part.get("offsets")) {
                offsets.add(offset((ObjectNode) offset));
            }
        }
        return PlanParts.text(plan);
    }

    private void machine(ObjectNode machine) throws IOException {
        machine.put("name", ask.text("What do you call the machine?"));
        machine.put("serial", ask.text("Its serial number?"));
        unit = LengthUnit.of(ask.choice("In which unit does it show positions?", UNITS, "mm"));
        machine.put(
                "resolution",
                ask.standard("Smallest step of its position display?", ofUnit("0.001", "0.0001"), this::positive));
        machine.put("jogStep", ask.standard("Its smallest jog?", ofUnit("0.010", "0.0010"), this::positive));
        ask.optional("By how much may an axis stand differently at one shown position (backlash)?", this::notNegative)
                .ifPresent(backlash -> machine.put("backlash", backlash));
        ArrayNode travels = machine.putArray("travels");
        for (Axis axis : Axis.values()) {
            String[] ends = ask.needed(
                    "From where to where does " + axis + " go on the display, such as 'from -20 to 3400'?", this::ends);
            travels.addObject().put("axis", axis.name()).put("from", ends[0]).put("to", ends[1]);
        }
    }

    private void indicator(ObjectNode indicator) throws IOException {
        indicator.put("description", ask.text("What is the indicator, in your words (no maker's name needed)?"));
        indicator.put("serial", ask.text("Its serial number?"));
        LengthUnit shown = LengthUnit.of(ask.choice("In which unit does it show?", UNITS, unit.symbol()));
        String resolution = ask.standard(
                "Smallest step of its display?",
                shown == LengthUnit.MM ? "0.001 mm" : "0.00005 in",
                answer -> positive(withUnit(answer, shown)));
        indicator.put("resolution", resolution);
        ask.tell("Profiles that come with the program: " + String.join(", ", Profiles.BUNDLED));
        ask.optional("Its profile, what travels on its wire: one of these or a file?", PlanInterview::profile)
                .ifPresent(profile -> indicator.put("profile", profile));
        ask.optional("When was it calibrated, as its label says?", Function.identity())
                .ifPresent(date -> indicator.put("calibrated", date));
        ask.optional("How far may it be off anywhere in its range (plus or minus, from its sheet)?", this::notNegative)
                .ifPresent(error ->
                        indicator.put("permissibleError", error).put("independentAfter", ofUnit("0.200", "0.0080")));
        ask.optional("Its hysteresis, from its sheet?", this::notNegative)
                .ifPresent(hysteresis -> indicator.put("hysteresis", hysteresis));
        ask.optional("Radius of its contact's ball?", this::positive)
                .ifPresent(radius -> indicator.put("contactRadius", radius));
        indicator.put(
                "tilt_deg",
                ask.standard("By how many degrees may it lean off the measured axis?", "1", PlanInterview::degrees));
        pressing = ask.choice("What does pressing do to its reading?", List.of("raises", "lowers"), "raises");
    }

    private List<String> chosen() throws IOException {
        ask.tell("What can be measured:");
        for (int i = 0; i < PlanParts.NAMES.size(); i++) {
            ask.tell("  " + (i + 1) + " " + PlanParts.title(PlanParts.NAMES.get(i)));
        }
        return ask.needed("What is to be measured, by its numbers, such as 1 4 5?", PlanInterview::chosen);
    }

    private static List<String> chosen(String answer) {
        List<String> names = new ArrayList<>();
        for (String number : answer.split("[ ,]+")) {
            int index = number.matches("\\d{1,3}") ? Integer.parseInt(number) - 1 : -1;
            if (index < 0 || index >= PlanParts.NAMES.size()) {
                throw new IllegalArgumentException("'" + number + "' is not one of 1 to " + PlanParts.NAMES.size());
            }
            if (!names.contains(PlanParts.NAMES.get(index))) {
                names.add(PlanParts.NAMES.get(index));
            }
        }
        return names;
    }

    private ObjectNode feature(ObjectNode feature) throws IOException {
        if (feature.has("radius")) {
            String name = feature.get("name").asText();
            feature.put(
                    "radius",
                    ask.standard(
                            "Radius of the " + name + "?", feature.get("radius").asText(), this::positive));
            feature.remove("radiusU95");
            ask.optional("How well is that radius known, plus or minus?", this::notNegative)
                    .ifPresent(u95 -> feature.put("radiusU95", u95));
        }
        return feature;
    }

    private ObjectNode offset(ObjectNode offset) throws IOException {
        String title = offset.get("title").asText();
        ObjectNode entry = (ObjectNode) offset.get("entry");
        boolean isAngle = entry.get("before").asText().endsWith("deg");
        Function<String, String> amount = isAngle ? PlanInterview::angle : this::length;
        String of = " of '" + title + "'";
        entry.put(
                "label",
                ask.standard(
                        "What does the controller call the entry" + of + "?",
                        entry.get("label").asText(),
                        Function.identity()));
        entry.put("before", ask.needed("What stands in it now, with all its decimals?", amount));
        if (offset.get("method").asText().equals(ReversalMethod.WORD)) {
            double factor = ask.standard(
                    "What does it hold: 1 the offset, 2 the full difference of the two positions, 0.5 half the offset?",
                    "1",
                    PlanInterview::factor);
            if (factor != 1) {
                entry.put("factor", factor);
            }
        }
        if (!isAngle) {
            entry.put(
                    "sign",
                    ask.choice(
                            "Its sign, counted along the axis?",
                            List.of("signed", "negated", "magnitude"),
                            entry.path("sign").asText("signed")));
        }
        offset.remove("tolerance");
        Optional<String> tolerance = ask.optional(
                "How far may the true value be off it, plus or minus?",
                isAngle ? PlanInterview::angleAbove0 : this::positive);
        tolerance.ifPresent(
                limit -> offset.putObject("tolerance").put("lower", "-" + limit).put("upper", limit));
        if (offset.has("direction")) {
            String axis = offset.get("axis").asText();
            offset.put(
                    "direction",
                    ask.choice(
                            "Which way does " + axis + " go on the display as the contact is pressed?",
                            List.of("plus", "minus"),
                            offset.get("direction").asText()));
            offset.put("pressing", pressing);
        }
        if (offset.has("circleRadius")) {
            offset.put(
                    "circleRadius",
                    ask.standard(
                            "Radius of the circle, from the spindle's axis to the contact?",
                            offset.get("circleRadius").asText(),
                            this::positive));
        }
        return offset;
    }

    private String ofUnit(String mm, String in) {
        return unit == LengthUnit.MM ? mm + " mm" : in + " in";
    }

    private static String withUnit(String answer, LengthUnit unit) {
        return answer.matches(".*[a-z]") ? answer : answer + " " + unit.symbol();
    }

    private String length(String answer) {
        if (answer.contains(",")) {
            throw new IllegalArgumentException("'" + answer + "' has a comma; write a decimal point");
        }
        return Length.of(withUnit(answer, unit)).toString();
    }

    private String positive(String answer) {
        String length = length(answer);
        if (Length.of(length).value().signum() <= 0) {
            throw new IllegalArgumentException("must be above 0, not " + length);
        }
        return length;
    }

    private String notNegative(String answer) {
        String length = length(answer);
        if (Length.of(length).value().signum() < 0) {
            throw new IllegalArgumentException("must not be negative, as " + length + " is");
        }
        return length;
    }

    private static String angle(String answer) {
        return Amount.of(answer.endsWith("deg") ? answer : answer + " deg").toString();
    }

    private static String angleAbove0(String answer) {
        String angle = angle(answer);
        if (!(Amount.of(angle).inside() > 0)) {
            throw new IllegalArgumentException("must be above 0, not " + angle);
        }
        return angle;
    }

    private String[] ends(String answer) {
        String[] ends = answer.replaceFirst("^from ", "").split(" to | +");
        if (ends.length != 2) {
            throw new IllegalArgumentException("two positions are needed, as in 'from -20 to 3400'");
        }
        Length from = Length.of(length(ends[0]));
        Length to = Length.of(length(ends[1]));
        if (!(from.mm() < to.mm())) {
            throw new IllegalArgumentException(to + " must be above " + from);
        }
        return new String[] {from.toString(), to.toString()};
    }

    private static String profile(String answer) {
        try {
            Profiles.load(answer);
            return answer;
        } catch (IOException e) {
            throw new IllegalArgumentException(e.getMessage(), e);
        }
    }

    private static double degrees(String answer) {
        return number(answer, 0, 45);
    }

    private static double factor(String answer) {
        return number(answer, 1e-6, 1e6);
    }

    private static double number(String answer, double least, double greatest) {
        double number;
        try {
            number = Double.parseDouble(answer);
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException("'" + answer + "' is no number", e);
        }
        if (!(number >= least && number <= greatest)) {
            throw new IllegalArgumentException("must be " + least + " to " + greatest + ", not " + answer);
        }
        return number;
    }
}
