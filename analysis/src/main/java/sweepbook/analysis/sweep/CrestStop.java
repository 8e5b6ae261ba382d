package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The stop on the crest as a witness of which passes to believe: the crest cannot lie below it, and people who look for the
 * crest stop near it, how near nobody knows.
 *
 * @param time_s its middle
 * @param level_mm its reading
 * @param stdU_mm standard uncertainty of the reading
 * @param farthest_mm the most by which it may have missed the crest
 */
record CrestStop(double time_s, double level_mm, double stdU_mm, double farthest_mm) {
    /** A stop may be none on the crest at all. */
    private static final double STRAY = 0.15;

    private static final int NODES = 500;
    /** In standard uncertainties of the passes. */
    private static final double REACH = 6;

    /** Log density of the stop where the crest stood at this reading then; the miss is even in its logarithm. */
    double logDensity(double crest_mm) {
        double miss = crest_mm - level_mm;
        double within = miss < 0 ? FastMath.exp(-miss * miss / (2 * stdU_mm * stdU_mm)) : miss < farthest_mm ? 1 : 0;
        double near = within / ((Math.max(miss, 0) + stdU_mm) * FastMath.log1p(farthest_mm / stdU_mm));
        return FastMath.log((1 - STRAY) * near + STRAY / (3 * farthest_mm));
    }

    /**
     * A crest that passes tell, with the stop for a further witness: the mean of its distribution, normal by the passes, given
     * the stop.
     *
     * @param wander_mm standard uncertainty of what may have moved between the passes and the stop
     */
    Estimate beside(Estimate passes, double wander_mm) {
        CrestStop wandered = new CrestStop(time_s, level_mm, FastMath.hypot(stdU_mm, wander_mm), farthest_mm);
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int k = -NODES; k <= NODES; k++) {
            double z = REACH * k / NODES;
            double w = FastMath.exp(-z * z / 2 + wandered.logDensity(passes.value() + z * passes.stdU()));
            sum += w;
            first += w * z;
            second += w * z * z;
        }
        double mean = first / sum;
        return new Estimate(
                passes.value() + mean * passes.stdU(),
                passes.stdU() * FastMath.sqrt(second / sum - mean * mean),
                passes.degreesOfFreedom());
    }
}
