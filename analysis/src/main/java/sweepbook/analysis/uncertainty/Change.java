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

    /**
     * Whether it is more than chance explains even though so many changes were looked at: the probability that any of
     * them seems to be one by chance stays at 5 % in all (Bonferroni's inequality).
     */
    public boolean isSignificantAmong(int looks) {
        double factor = Estimate.tFactor(1 - 0.05 / looks, difference.degreesOfFreedom());
        return Math.abs(difference.value()) > factor * difference.stdU();
    }
}
