package sweepbook.analysis.sweep;

import org.hipparchus.special.Erf;
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
    /** A stop so many standard deviations above the passes' crest tells of something else. */
    private static final double CONTRADICTS = 2;
    /** A stop may be none on the crest at all. */
    private static final double STRAY = 0.15;

    /** Log density of the stop where the crest stood at this reading then; the miss is even in its logarithm. */
    double logDensity(double crest_mm) {
        double miss = crest_mm - level_mm;
        double within = miss < 0 ? FastMath.exp(-miss * miss / (2 * stdU_mm * stdU_mm)) : miss < farthest_mm ? 1 : 0;
        double near = within / ((Math.max(miss, 0) + stdU_mm) * FastMath.log1p(farthest_mm / stdU_mm));
        return FastMath.log((1 - STRAY) * near + STRAY / (3 * farthest_mm));
    }

    /**
     * A crest that passes tell, knowing that it does not lie below the stop: the mean of a normal distribution cut off softly
     * there. How far below the crest people stop is not used.
     *
     * @param wander_mm standard uncertainty of what may have moved between the passes and the stop
     */
    Estimate below(Estimate passes, double wander_mm) {
        double variance = passes.stdU() * passes.stdU();
        double together = FastMath.sqrt(variance + stdU_mm * stdU_mm + wander_mm * wander_mm);
        double above = (passes.value() - level_mm) / together;
        if (above < -CONTRADICTS) {
            return passes;
        }
        double share = variance / together;
        double rise = 2
                * FastMath.exp(-above * above / 2)
                / (FastMath.sqrt(2 * FastMath.PI) * Erf.erfc(-above / FastMath.sqrt(2)));
        double left = variance - share * share * rise * (rise + above);
        return new Estimate(passes.value() + share * rise, FastMath.sqrt(left), passes.degreesOfFreedom());
    }
}
