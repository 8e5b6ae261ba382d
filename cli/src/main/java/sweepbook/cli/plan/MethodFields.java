package sweepbook.cli.plan;

import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.offset.Turning;

/** Reads how an offset is measured, with what each way needs. */
final class MethodFields {
    private static final List<String> WORDS = List.of(
            DifferenceMethod.WORD,
            ReversalMethod.WORD,
            BracketMethod.WORD,
            AlignmentMethod.WORD,
            StepsMethod.WORD,
            TramMethod.WORD);

    private static final List<String> ROTARY_AXES = List.of("A", "B", "C");

    private MethodFields() {}

    static Method parse(JsonFields fields, Plan.Machine machine, Axis measured, int repeats) throws JsonFault {
        String word = fields.choice("method", WORDS, choice -> choice);
        if (repeats > 1 && !word.equals(DifferenceMethod.WORD) && !word.equals(ReversalMethod.WORD)) {
            throw fields.fault("repeats", "are for difference and reversal; any other method is made once");
        }
        return switch (word) {
            case DifferenceMethod.WORD -> new DifferenceMethod(repeats);
            case ReversalMethod.WORD -> new ReversalMethod(repeats);
            case BracketMethod.WORD -> new BracketMethod();
            case StepsMethod.WORD -> new StepsMethod();
            case TramMethod.WORD -> tram(fields);
            default -> alignment(fields, machine, measured);
        };
    }

    private static Method tram(JsonFields fields) throws JsonFault {
        Length radius;
        try {
            radius = Length.of(fields.text("circleRadius"));
        } catch (IllegalArgumentException e) {
            throw fields.fault("circleRadius", e.getMessage());
        }
        if (!(radius.mm() > 0)) {
            throw fields.fault("circleRadius", "must be above 0, not " + radius);
        }
        return new TramMethod(radius, fields.number("towards_deg", -360, 360));
    }

    private static Method alignment(JsonFields fields, Plan.Machine machine, Axis measured) throws JsonFault {
        Axis travel = fields.choice("travelAxis", List.of(Axis.values()), Axis::name);
        if (travel == measured) {
            throw fields.fault("travelAxis", travel + " is the measured axis; the travel goes along another");
        }
        if (machine.travel(travel).isEmpty()) {
            throw fields.fault("travelAxis", travel + " has no travel; add it to the machine's travels");
        }
        if (!fields.has("rotary")) {
            return new AlignmentMethod(travel, Optional.empty());
        }
        String rotary = fields.choice("rotary", ROTARY_AXES, axis -> axis);
        try {
            Turning turning =
                    Turning.of(travel.name().charAt(0), measured.name().charAt(0), rotary.charAt(0));
            return new AlignmentMethod(travel, Optional.of(new AlignmentMethod.Turned(rotary, turning)));
        } catch (IllegalArgumentException e) {
            throw fields.fault("rotary", e.getMessage());
        }
    }
}
