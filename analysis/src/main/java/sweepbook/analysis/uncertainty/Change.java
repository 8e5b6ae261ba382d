package sweepbook.analysis.uncertainty;

import java.util.List;

/**
 * How a quantity moved between two states, with the uncertainty of that movement; both estimates are independent.
 *
 * @param difference now less before
 */
public record Change(Estimate difference) {
    public static Change between(Estimate before, Estimate now) {
        return new Change(new Budget(
                        now.value() - before.value(),
                        List.of(
                                BudgetLine.of("before", before, -1, "measure again"),
                                BudgetLine.of("now", now, 1, "measure again")))
                .combined());
    }

    /** Whether it is more than chance explains: the change lies outside its own U95. */
    public boolean isSignificant() {
        return Math.abs(difference.value()) > difference.u95();
    }
}
