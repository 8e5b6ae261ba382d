package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * The weighted line through the crests of some passes, over time.
 *
 * @param level_mm at the time from which it counts
 * @param weight of the level where the drift is known, per square mm
 * @param drift_mm_per_s 0 where the crests are taken for level
 * @param driftStdU_mm_per_s its standard uncertainty
 */
record CrestLine(double level_mm, double weight, double drift_mm_per_s, double driftStdU_mm_per_s) {
    /** @param since_s time from which it counts */
    static CrestLine through(List<PassCrest> passes, double since_s, boolean level) {
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double y0 = 0;
        double y1 = 0;
        for (PassCrest pass : passes) {
            double w = 1 / pass.variance_mm2();
            double t = pass.time_s() - since_s;
            s0 += w;
            s1 += w * t;
            s2 += w * t * t;
            y0 += w * pass.crest_mm();
            y1 += w * t * pass.crest_mm();
        }
        double determinant = s0 * s2 - s1 * s1;
        double drift = level || determinant <= 0 ? 0 : (s0 * y1 - s1 * y0) / determinant;
        double stdU = level || determinant <= 0 ? 0 : FastMath.sqrt(s0 / determinant);
        return new CrestLine((y0 - drift * s1) / s0, s0, drift, stdU);
    }

    /** How far a pass lies above the line. */
    double off_mm(PassCrest pass, double since_s) {
        return pass.without(drift_mm_per_s, since_s) - level_mm;
    }
}
