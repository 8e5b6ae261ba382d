package sweepbook.analysis.offset;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * High spot, or stable zero on the high spot, with the machine position typed for it.
 *
 * @param feature what was touched
 * @param approach how
 * @param position_mm what the machine showed on the measured axis
 * @param reading of the indicator on the crest at that position, in millimetres; its uncertainty already holds the
 *     display's resolution and the scatter
 * @param time_s when, on the monotonic clock that all touches of one job share
 */
public record Touch(Feature feature, Approach approach, double position_mm, Estimate reading, double time_s) {
    public Touch {
        if (!Double.isFinite(position_mm) || !Double.isFinite(time_s)) {
            throw new IllegalArgumentException("a touch needs a finite position and time, not " + position_mm + " mm, "
                    + time_s + " s at " + feature.name());
        }
    }

    /** By how much the touched surface moves in the scale of the axis when the reading grows by one: g a p. */
    int signOfReading() {
        return stand() * side() * approach.pressing().sign();
    }

    /** By how much the feature's place moves when the position grows by one: -g. */
    int signOfPosition() {
        return -stand();
    }

    /** On which side of the feature's place the contact lies, in the scale of the axis: g a. */
    int touchedSide() {
        return stand() * side();
    }

    /**
     * The touched surface in the scale of the axis, up to a constant that all touches of one indicator in one stand
     * share: g (a p s r - P).
     *
     * @param readingScale true movement for a reading of one, s
     */
    double surface_mm(double readingScale) {
        return signOfReading() * readingScale * reading.value() + signOfPosition() * position_mm;
    }

    private int stand() {
        return approach.stand().sign();
    }

    private int side() {
        return approach.direction().sign();
    }
}
