package sweepbook.cli.plan;

import java.math.BigDecimal;
import java.util.List;
import java.util.function.Function;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.uncertainty.Estimate;

/** Fields as plans write them: lengths with their unit, what is known of them, words to choose from. */
final class PlanFields {
    /** What is told as plus or minus is taken as a 95 % interval of a normal distribution. */
    private static final double U95_TO_STD_U = 1 / 1.96;

    private PlanFields() {}

    static Length length(JsonFields fields, String field) throws JsonFault {
        String text = fields.text(field);
        try {
            return Length.of(text);
        } catch (IllegalArgumentException e) {
            throw fields.fault(field, e.getMessage());
        }
    }

    /** A length above zero. */
    static Length step(JsonFields fields, String field) throws JsonFault {
        Length length = length(fields, field);
        if (length.value().compareTo(BigDecimal.ZERO) <= 0) {
            throw fields.fault(field, "must be above 0, not " + length);
        }
        return length;
    }

    /** NaN where the plan does not state it. */
    static double optionalLength_mm(JsonFields fields, String field) throws JsonFault {
        return fields.has(field) ? halfWidth(fields, field).mm() : Double.NaN;
    }

    static <E extends Enum<E>> E choice(JsonFields fields, String field, E[] choices) throws JsonFault {
        Function<E, String> word = choices instanceof Axis[] ? E::name : Word::of;
        return fields.choice(field, List.of(choices), word);
    }

    private static Length halfWidth(JsonFields fields, String field) throws JsonFault {
        Length limit = length(fields, field);
        if (limit.value().signum() < 0) {
            throw fields.fault(field, "must not be negative, as " + limit + " is");
        }
        return limit;
    }

    /** A length that may have its 95 % half-width beside it. */
    static Estimate estimate_mm(JsonFields fields, double value_mm, String u95Field) throws JsonFault {
        double u95_mm = fields.has(u95Field) ? halfWidth(fields, u95Field).mm() : 0;
        return new Estimate(value_mm, u95_mm * U95_TO_STD_U, Double.POSITIVE_INFINITY);
    }

    /** A number within bounds with its 95 % half-width; exactly known where that is left out. */
    static Estimate estimate(JsonFields fields, String field, double least, double greatest, String u95Field)
            throws JsonFault {
        double u95 = fields.has(u95Field) ? fields.number(u95Field, 0, greatest - least) : 0;
        return new Estimate(fields.number(field, least, greatest), u95 * U95_TO_STD_U, Double.POSITIVE_INFINITY);
    }
}
