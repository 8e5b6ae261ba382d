package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * The stop on the crest as a witness of which passes to believe: the crest cannot lie below it, and people who look for the
 * crest stop near it, how near nobody knows.
 *
 * @param time_s its middle
 * @param level_mm its reading
 * @param stdU_mm standard uncertainty of the reading
 * @param nearest_mm no eye comes nearer to the crest but by chance
 * @param farthest_mm the most by which it may have missed the crest
 */
record CrestStop(double time_s, double level_mm, double stdU_mm, double nearest_mm, double farthest_mm) {
    /** A stop may be none on the crest at all. */
    private static final double STRAY = 0.15;

    /** The same stop where the reading stood so much higher. */
    CrestStop drifted(double by_mm) {
        return new CrestStop(time_s, level_mm + by_mm, stdU_mm, nearest_mm, farthest_mm);
    }

    /**
     * Log density of the stop where the crest stood at this reading then; the miss is even in its logarithm.
     *
     * @param wander_mm standard uncertainty of what may have moved since
     */
    double logDensity(double crest_mm, double wander_mm) {
        double miss = crest_mm - level_mm;
        double variance = stdU_mm * stdU_mm + wander_mm * wander_mm;
        double within = miss < 0 ? Math.exp(-miss * miss / (2 * variance)) : miss < farthest_mm ? 1 : 0;
        double least = Math.sqrt(variance + nearest_mm * nearest_mm);
        double near = within / ((Math.max(miss, 0) + least) * FastMath.log1p(farthest_mm / least));
        return Math.log((1 - STRAY) * near + STRAY / (3 * farthest_mm));
    }
}
