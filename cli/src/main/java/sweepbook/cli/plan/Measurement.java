package sweepbook.cli.plan;

import java.util.List;
import java.util.function.Function;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Touches put together; what comes of them depends on the conditions.
 *
 * @param result in millimetres, or degrees for an angle, with its sources of uncertainty
 * @param warnings what the budget lacks or the person should look at
 * @param besides what else the same touches tell
 * @param residuals how each touch fits the others, where there are touches to spare
 */
public record Measurement(
        Function<TouchConditions, Budget> result,
        Function<TouchConditions, List<String>> warnings,
        Function<TouchConditions, List<Beside>> besides,
        Function<TouchConditions, List<Residual>> residuals) {
    /** A measurement that tells its result alone. */
    Measurement(Function<TouchConditions, Budget> result, Function<TouchConditions, List<String>> warnings) {
        this(result, warnings, conditions -> List.of());
    }

    /** A measurement that compares no touch with the others. */
    Measurement(
            Function<TouchConditions, Budget> result,
            Function<TouchConditions, List<String>> warnings,
            Function<TouchConditions, List<Beside>> besides) {
        this(result, warnings, besides, conditions -> List.of());
    }

    /**
     * Something that was found besides the offset.
     *
     * @param what in words, as the misclosure
     * @param found in millimetres, degrees, or as a number
     */
    public record Beside(String what, Estimate found, Quantity quantity) {
        public enum Quantity {
            LENGTH,
            ANGLE,
            RATIO
        }

        static Beside length(String what, Estimate length_mm) {
            return new Beside(what, length_mm, Quantity.LENGTH);
        }

        static Beside angle(String what, Estimate angle_deg) {
            return new Beside(what, angle_deg, Quantity.ANGLE);
        }

        static Beside ratio(String what, Estimate ratio) {
            return new Beside(what, ratio, Quantity.RATIO);
        }
    }
}
