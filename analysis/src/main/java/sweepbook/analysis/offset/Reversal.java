package sweepbook.analysis.offset;

import java.util.List;
import sweepbook.analysis.uncertainty.Budget;

/**
 * One feature against a rotary axis: it is touched before and after half a turn, from the same side. Its eccentricity
 * is half the difference of its two places, positive where the feature lay on the plus side of the axis at the first
 * touch; radii drop out, and so does everything that was the same both times.
 */
public final class Reversal {
    private final Touch atStart;
    private final Touch turned;
    private final WeightedTouches halfDifference;

    public Reversal(Touch atStart, Touch turned) {
        if (!atStart.feature().equals(turned.feature())) {
            throw new IllegalArgumentException("a reversal touches one feature twice, not "
                    + atStart.feature().name() + " and " + turned.feature().name());
        }
        if (!atStart.approach().equals(turned.approach())) {
            throw new IllegalArgumentException(
                    "a reversal touches " + atStart.feature().name() + " from the same side before and after the turn");
        }
        this.atStart = atStart;
        this.turned = turned;
        this.halfDifference = new WeightedTouches(List.of(atStart, turned), 0.5, -0.5);
    }

    /** The eccentricity with its sources of uncertainty, in millimetres. */
    public Budget eccentricity(TouchConditions conditions) {
        return halfDifference.budget(conditions);
    }

    /** The distance from the rotary axis to another feature, touched in the same stand, in millimetres. */
    public Budget fromAxisTo(Touch other, TouchConditions conditions) {
        return new WeightedTouches(List.of(atStart, turned, other), -0.5, -0.5, 1).budget(conditions);
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        return halfDifference.warnings(conditions);
    }
}
