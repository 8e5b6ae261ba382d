package sweepbook.cli.plan;

import java.util.List;
import java.util.function.Function;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Touches put together; what comes of them depends on the conditions.
 *
 * @param result in millimetres, or degrees for an angle, with its sources of uncertainty
 * @param warnings what the budget lacks or the person should look at
 * @param besides what else the same touches tell
 */
public record Measurement(
        Function<TouchConditions, Budget> result,
        Function<TouchConditions, List<String>> warnings,
        Function<TouchConditions, List<Beside>> besides) {
    /** A measurement that tells its result alone. */
    Measurement(Function<TouchConditions, Budget> result, Function<TouchConditions, List<String>> warnings) {
        this(result, warnings, conditions -> List.of());
    }

    /**
     * Something that was found besides the offset.
     *
     * @param what in words, as the misclosure
     * @param length in millimetres
     */
    public record Beside(String what, Estimate length) {}
}
