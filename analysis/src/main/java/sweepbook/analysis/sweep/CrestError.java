package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/** How far a pass' crest is off, in its own standard uncertainties: it may be worse than it owns up to, some by much. */
final class CrestError {
    private static final double[] WORSE = {1, 2, 4};
    private static final double[] SHARE = {0.97, 0.025, 0.005};

    private CrestError() {}

    /** Density but for the factor 1 / sqrt(2 pi). */
    static double density(double z) {
        double density = 0;
        for (int m = 0; m < WORSE.length; m++) {
            double zm = z / WORSE[m];
            density += SHARE[m] / WORSE[m] * FastMath.exp(-zm * zm / 2);
        }
        return density;
    }
}
