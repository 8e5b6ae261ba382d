package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * A touch pair with the first feature touched again at the end (A-B-A). What it does not come back to, the
 * misclosure, tells whether stand or part moved; a steady drift is taken out by weighting the two outer touches by
 * their distance in time.
 *
 * <p>A drift that only ever goes one way is at the middle touch anywhere between none and the whole misclosure. What
 * is left of it after the weighting is taken as rectangular between these.
 */
public final class BracketedPair {
    private final Touch before;
    private final Touch after;
    private final double elapsed; // share of the time that had passed at the middle touch, 0 to 1
    private final WeightedTouches difference;
    private final WeightedTouches misclosure;

    public BracketedPair(Touch before, Touch middle, Touch after) {
        if (!before.feature().equals(after.feature()) || !before.approach().equals(after.approach())) {
            throw new IllegalArgumentException("the last touch must repeat the first one, of "
                    + before.feature().name() + ", not touch " + after.feature().name());
        }
        if (!(before.time_s() <= middle.time_s()
                && middle.time_s() <= after.time_s()
                && before.time_s() < after.time_s())) {
            throw new IllegalArgumentException(
                    "the touches of " + before.feature().name() + " must lie before and after that of "
                            + middle.feature().name() + " in time");
        }
        this.before = before;
        this.after = after;
        this.elapsed = (middle.time_s() - before.time_s()) / (after.time_s() - before.time_s());
        this.difference = new WeightedTouches(List.of(before, middle, after), elapsed - 1, 1, -elapsed);
        this.misclosure = new WeightedTouches(List.of(before, after), -1, 1);
    }

    /** The distance from the outer feature to the middle one with its sources of uncertainty, in millimetres. */
    public Budget offset(TouchConditions conditions) {
        double misclosure_mm = misclosure(conditions).value();
        double offCentre = elapsed - 0.5;
        return difference
                .budget(conditions)
                .with(new BudgetLine(
                        "drift that the misclosure shows, where it was not steady",
                        Distribution.RECTANGULAR,
                        Math.abs(misclosure_mm) * Math.sqrt(1.0 / 12 + offCentre * offCentre),
                        1,
                        Double.POSITIVE_INFINITY,
                        "a steadier stand; work faster; let the machine warm through"));
    }

    /** Last touch less first, in millimetres, with the uncertainty it has where nothing moved. */
    public Estimate misclosure(TouchConditions conditions) {
        TouchConditions nothingMoves = new TouchConditions(
                conditions.indicator(),
                conditions.machine(),
                new Surroundings(0, conditions.surroundings().temperature()));
        return misclosure.repeatability(nothingMoves).combined();
    }

    /** Whether stand or part moved by more than chance explains. */
    public boolean moved(TouchConditions conditions) {
        Estimate misclosure = misclosure(conditions);
        return Math.abs(misclosure.value()) > misclosure.u95();
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        List<String> warnings = new ArrayList<>(difference.warnings(conditions));
        Estimate misclosure = misclosure(conditions);
        if (moved(conditions)) {
            warnings.add(String.format(
                    Locale.ROOT,
                    "stand or part moved: back at %s after %.0f s the place differs by %.4f mm, more than the %.4f mm that chance "
                            + "explains; find out what moved, then measure again",
                    before.feature().name(),
                    after.time_s() - before.time_s(),
                    misclosure.value(),
                    misclosure.u95()));
        }
        return List.copyOf(warnings);
    }
}
