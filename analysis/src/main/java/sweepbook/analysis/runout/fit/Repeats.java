package sweepbook.analysis.runout.fit;

import org.hipparchus.special.Erf;

/**
 * Readings that repeat the one before them oftener than the part's motion and the noise would let them: they show the same
 * value of a display that is a little slower than it is read.
 */
public final class Repeats {
    /** So many readings show it. */
    private static final int MOST_LOOKED_AT = 20_000;

    private static final double CHANCE_SIGMAS = 3;
    /** The fit's own small misses, where noise is far below a step, make up so large a share. */
    private static final double LEAST_SHARE = 0.05;

    private Repeats() {}

    /**
     * Readings for one new value, rather too few, for a value that is new has moved on further; 1 where each may be new.
     *
     * @param angle_rad the angle at each reading
     */
    public static double readingsAValue(Samples all, double[] angle_rad, TurnFit fit) {
        Profile profile = fit.profile();
        double step = all.step_mm();
        double sigma = Math.sqrt(Math.max(fit.scatter_mm() * fit.scatter_mm() - step * step / 12, 0));
        int pairs = Math.min(MOST_LOOKED_AT, all.size()) - 1;
        double surplus = 0;
        double others = 0;
        double variance = 0;
        for (int i = 1; i <= pairs; i++) {
            double off = all.reading_mm()[i - 1] - profile.at(angle_rad[i]) - fit.drift_mm(all.time_s()[i]);
            double chance = chanceOfSame(off, step, sigma);
            surplus += (all.reading_mm()[i] == all.reading_mm()[i - 1] ? 1 : 0) - chance;
            others += 1 - chance;
            variance += chance * (1 - chance);
        }
        double share = surplus / others;
        boolean surely = surplus > CHANCE_SIGMAS * Math.sqrt(variance) && share > LEAST_SHARE;
        return surely ? 1 / (1 - share) : 1;
    }

    /** Chance of a new reading to show a value that lies so far off what is measured. */
    private static double chanceOfSame(double off_mm, double step_mm, double sigma_mm) {
        double wide = Math.sqrt(2) * Math.max(sigma_mm, Double.MIN_NORMAL);
        return Erf.erf((off_mm - step_mm / 2) / wide, (off_mm + step_mm / 2) / wide) / 2;
    }
}
