package sweepbook.analysis.offset;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * What is known of the indicator beyond the trace. NaN: not stated (the result then warns); 0: known to be nil.
 *
 * @param permissibleError_mm its maximum permissible error, as plus or minus, over the whole range
 * @param independentAfter_mm readings this far apart have errors that have nothing to do with each other; nearer ones
 *     share their error in proportion
 * @param hysteresis_mm difference between its readings going in and coming out
 * @param tilt_deg how far its axis may lean off the measured axis, as plus or minus
 * @param readingScale true movement for a reading of one: 1, the cosine of a lever's angle, or from a scale check
 * @param contactRadius of its ball, needed only where one feature is touched from the other side than the other
 */
public record IndicatorLimits(
        double permissibleError_mm,
        double independentAfter_mm,
        double hysteresis_mm,
        double tilt_deg,
        Estimate readingScale,
        Estimate contactRadius) {
    public static final IndicatorLimits NOT_STATED =
            new IndicatorLimits(Double.NaN, Double.NaN, Double.NaN, Double.NaN, Estimate.exact(1), Estimate.exact(0));

    public IndicatorLimits {
        Limit.check("maximum permissible error", permissibleError_mm, "mm");
        Limit.check("distance between independent errors", independentAfter_mm, "mm");
        Limit.check("hysteresis", hysteresis_mm, "mm");
        Limit.check("tilt of the indicator", tilt_deg, "degrees");
    }

    /** The same with another maximum permissible error. */
    public IndicatorLimits withPermissibleError(double permissible_mm) {
        return new IndicatorLimits(
                permissible_mm, independentAfter_mm, hysteresis_mm, tilt_deg, readingScale, contactRadius);
    }

    /** How far the indicator's errors at two readings go together, from 0 (not at all) to 1 (they cancel). */
    public double errorCorrelation(double apart_mm) {
        if (!(independentAfter_mm > 0)) {
            return 0;
        }
        return Math.max(0, 1 - Math.abs(apart_mm) / independentAfter_mm);
    }
}
