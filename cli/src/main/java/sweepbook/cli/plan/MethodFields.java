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
            AxisToFeatureMethod.WORD,
            AlignmentMethod.WORD,
            ParallelismMethod.WORD,
            StepsMethod.WORD,
            TramMethod.WORD,
            NetworkMethod.WORD,
            ScaleCheckMethod.WORD);

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
            case AxisToFeatureMethod.WORD -> new AxisToFeatureMethod();
            case StepsMethod.WORD -> new StepsMethod();
            case TramMethod.WORD -> tram(fields);
            case NetworkMethod.WORD -> new NetworkMethod(fields.text("from"), fields.text("to"));
            case ScaleCheckMethod.WORD -> new ScaleCheckMethod();
            case ParallelismMethod.WORD ->
                new ParallelismMethod(
                        new AlignmentMethod(travel(fields, machine, measured), Optional.empty(), isTurnedOver(fields)),
                        PlanFields.step(fields, "over"));
            default -> alignment(fields, machine, measured);
        };
    }

    private static Method tram(JsonFields fields) throws JsonFault {
        return new TramMethod(PlanFields.step(fields, "circleRadius"), fields.number("towards_deg", -360, 360));
    }

    private static Axis travel(JsonFields fields, Plan.Machine machine, Axis measured) throws JsonFault {
        Axis travel = fields.choice("travelAxis", List.of(Axis.values()), Axis::name);
        if (travel == measured) {
            throw fields.fault("travelAxis", travel + " is the measured axis; the travel goes along another");
        }
        if (machine.travel(travel).isEmpty()) {
            throw fields.fault("travelAxis", travel + " has no travel; add it to the machine's travels");
        }
        return travel;
    }

    private static boolean isTurnedOver(JsonFields fields) throws JsonFault {
        return fields.has("turnedOver") && fields.flag("turnedOver");
    }

    private static Method alignment(JsonFields fields, Plan.Machine machine, Axis measured) throws JsonFault {
        Axis travel = travel(fields, machine, measured);
        if (!fields.has("rotary")) {
            return new AlignmentMethod(travel, Optional.empty(), isTurnedOver(fields));
        }
        String rotary = fields.choice("rotary", ROTARY_AXES, axis -> axis);
        try {
            Turning turning =
                    Turning.of(travel.name().charAt(0), measured.name().charAt(0), rotary.charAt(0));
            return new AlignmentMethod(
                    travel, Optional.of(new AlignmentMethod.Turned(rotary, turning)), isTurnedOver(fields));
        } catch (IllegalArgumentException e) {
            throw fields.fault("rotary", e.getMessage());
        }
    }
}
