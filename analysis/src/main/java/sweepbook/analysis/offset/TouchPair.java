package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Repeats;

/**
 * Distance between the places of two features along the measured axis, from touches of each by the same indicator in
 * the same stand; with repeats, their mean.
 *
 * <p>Each place is {@code g (a p s r - P - a (R + rt))} up to one constant; the offset is the second place less the
 * first, in the direction of the axis. The derivation stands in {@code analysis/docs/offsets.md}.
 */
public final class TouchPair {
    private static final int ENOUGH_TO_SEE_A_DRIFT = 8;

    private final List<Touch> first;
    private final List<Touch> second;
    private final WeightedTouches difference;

    public TouchPair(Touch first, Touch second) {
        this(List.of(first), List.of(second));
    }

    /** As many touches of the first feature as of the second, in the order in which they were made. */
    public TouchPair(List<Touch> first, List<Touch> second) {
        if (first.isEmpty() || first.size() != second.size()) {
            throw new IllegalArgumentException(
                    "an offset needs as many touches of the one feature as of the other, not " + first.size() + " and "
                            + second.size());
        }
        this.first = List.copyOf(first);
        this.second = List.copyOf(second);
        List<Touch> touches = new ArrayList<>(first);
        touches.addAll(second);
        double[] weight = new double[touches.size()];
        for (int i = 0; i < weight.length; i++) {
            weight[i] = (i < first.size() ? -1.0 : 1.0) / first.size();
        }
        this.difference = new WeightedTouches(touches, weight);
    }

    /** The offset with its sources of uncertainty, in millimetres. */
    public Budget offset(TouchConditions conditions) {
        Budget offset = difference.budget(conditions);
        return first.size() > 1 ? withRepeats(offset, repeats(conditions)) : offset;
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        List<String> warnings = new ArrayList<>(difference.warnings(conditions));
        if (first.size() > 1) {
            Repeats repeats = repeats(conditions);
            if (repeats.ratio().isTooLarge()) {
                warnings.add("the repeats disagree by more than their uncertainties explain: look for what moves");
            }
            if (first.size() >= ENOUGH_TO_SEE_A_DRIFT && repeats.resemblance() > 2 / Math.sqrt(first.size())) {
                warnings.add("each repeat resembles the one before it: something drifts, "
                        + "so that their mean is worth less than their number");
            }
        }
        return List.copyOf(warnings);
    }

    private static Budget withRepeats(Budget offset, Repeats repeats) {
        Repeats.Ratio ratio = repeats.ratio();
        if (!ratio.isTooLarge()) {
            return offset;
        }
        return offset.with(new BudgetLine(
                "what changes from repeat to repeat",
                Distribution.NORMAL,
                ratio.beyond(),
                Math.sqrt(1 / (ratio.freedom() + 1)),
                ratio.freedom(),
                "find what moves: stand, clamping, temperature; then repeat more often"));
    }

    /** Each repeat with the uncertainty of what is new at every touch. */
    private Repeats repeats(TouchConditions conditions) {
        List<Estimate> each = new ArrayList<>();
        for (int i = 0; i < first.size(); i++) {
            each.add(new WeightedTouches(List.of(first.get(i), second.get(i)), -1, 1)
                    .repeatability(conditions)
                    .combined());
        }
        return new Repeats(each);
    }
}
