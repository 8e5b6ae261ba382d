package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * How a reading moved while the hand rested, as a witness of how the stand moves: a drift goes on in every rest.
 *
 * @param from_s its begin
 * @param to_s its end
 * @param slope_mm_per_s of the reading
 * @param stdU_mm_per_s standard uncertainty of the slope
 */
record RestSlope(double from_s, double to_s, double slope_mm_per_s, double stdU_mm_per_s) {
    /** A hand that rests may move a little, and a slide that was jogged creeps. */
    private static final double STRAY = 0.3;

    /** The same rest where the stand moved by so much a second more. */
    RestSlope drifted(double by_mm_per_s) {
        return new RestSlope(from_s, to_s, slope_mm_per_s + by_mm_per_s, stdU_mm_per_s);
    }

    /**
     * Log density where the stand moved like this.
     *
     * @param fastest_mm_per_s up to which any other motion is as likely
     */
    double logDensity(CrestLine course, double fastest_mm_per_s) {
        double moves = (course.moved_mm(to_s) - course.moved_mm(from_s)) / (to_s - from_s);
        double off = (slope_mm_per_s - moves) / stdU_mm_per_s;
        double like = FastMath.exp(-off * off / 2) / (FastMath.sqrt(2 * FastMath.PI) * stdU_mm_per_s);
        return FastMath.log((1 - STRAY) * like + STRAY / (2 * fastest_mm_per_s));
    }
}
