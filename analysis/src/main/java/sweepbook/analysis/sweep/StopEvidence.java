package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * What the stop on the crest adds to the passes: it cannot lie above the crest, and people who look for the crest stop near
 * it, how near nobody knows, so the miss m has a prior that is even in its logarithm, 1 / (m + m0) up to the farthest miss.
 * Where the stop lies well below the passes' crest this says next to nothing; where it agrees with them it says much.
 */
final class StopEvidence {
    private static final double AGREES = 3;
    private static final int CRESTS = 160;
    private static final int MISSES = 60;

    private StopEvidence() {}

    /** The crest after the stop; the passes' own where the stop lies above it by more than chance. */
    static Estimate combined(Estimate passes, Estimate stop, double farthest_mm, double resolution_mm) {
        double together = FastMath.hypot(passes.stdU(), stop.stdU());
        if (stop.value() - passes.value() > AGREES * together || !(passes.stdU() > 0)) {
            return passes;
        }
        double u = Math.max(stop.stdU(), 0.02 * resolution_mm + 1e-9);
        double least = Math.max(u, 0.1 * resolution_mm);
        double[] miss = new double[MISSES];
        // Well beyond the farthest, so that the end of the range itself never speaks.
        double span = FastMath.log1p(4 * farthest_mm / least);
        for (int j = 0; j < MISSES; j++) {
            miss[j] = least * FastMath.expm1(span * (j + 0.5) / MISSES);
        }
        double sum = 0;
        double first = 0;
        double second = 0;
        double half = 6 * passes.stdU();
        double freedom = Math.min(passes.degreesOfFreedom(), 200);
        for (int k = 0; k <= CRESTS; k++) {
            double off = half * (2.0 * k / CRESTS - 1);
            double z = off / passes.stdU();
            double likelihood = 0;
            for (double m : miss) {
                double d = (stop.value() - passes.value() - off + m) / u;
                likelihood += FastMath.exp(-d * d / 2);
            }
            // Nodes even in the logarithm are narrower than the stop's own uncertainty near zero only.
            double w = (likelihood + 1e-12) * FastMath.pow(1 + z * z / freedom, -(freedom + 1) / 2);
            sum += w;
            first += w * off;
            second += w * off * off;
        }
        double mean = first / sum;
        return new Estimate(
                passes.value() + mean,
                FastMath.sqrt(Math.max(second / sum - mean * mean, 0.01 * passes.stdU() * passes.stdU())),
                Math.max(passes.degreesOfFreedom(), 4));
    }
}
