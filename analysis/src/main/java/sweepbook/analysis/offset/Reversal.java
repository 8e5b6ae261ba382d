package sweepbook.analysis.offset;

import java.util.List;
import sweepbook.analysis.uncertainty.Budget;

/**
 * Eccentricity of one feature against a rotary axis: it is touched before and after half a turn, from the same side.
 * The eccentricity is half the difference of its two places, positive where the feature lay on the plus side of the
 * axis at the first touch; radii drop out, and so does everything that was the same both times.
 */
public final class Reversal {
    private final TouchPair turnedToStart;

    public Reversal(Touch atStart, Touch turned) {
        if (!atStart.feature().equals(turned.feature())) {
            throw new IllegalArgumentException("a reversal touches one feature twice, not "
                    + atStart.feature().name() + " and " + turned.feature().name());
        }
        if (!atStart.approach().equals(turned.approach())) {
            throw new IllegalArgumentException(
                    "a reversal touches " + atStart.feature().name() + " from the same side before and after the turn");
        }
        this.turnedToStart = new TouchPair(turned, atStart);
    }

    /** The eccentricity with its sources of uncertainty, in millimetres. */
    public Budget eccentricity(TouchConditions conditions) {
        return turnedToStart.offset(conditions).times(0.5);
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        return turnedToStart.warnings(conditions);
    }
}
