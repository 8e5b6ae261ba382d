package sweepbook.analysis.network;

import org.hipparchus.distribution.continuous.NormalDistribution;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * When a residual is too large to be chance, and how small a mistake can be found: W. Baarda, "A testing procedure for
 * use in geodetic networks", Netherlands Geodetic Commission 2(5), 1968; A. Pope, NOAA Technical Report NOS 65 NGS 1,
 * 1976.
 *
 * @param alpha chance that a good observation is named
 * @param power chance that a mistake of the smallest detectable size is named
 */
public record Reliability(double alpha, double power) {
    /** One good observation in a thousand is named; four of five smallest mistakes are. */
    public static final Reliability USUAL = new Reliability(0.001, 0.80);

    private static final NormalDistribution NORMAL = new NormalDistribution();

    public Reliability {
        if (!(alpha > 0 && alpha < 1 && power > 0 && power < 1)) {
            throw new IllegalArgumentException("chances lie between 0 and 1, not " + alpha + " and " + power);
        }
    }

    /** Greatest normalised residual that passes, where the uncertainties are taken as stated. */
    public double critical() {
        return NORMAL.inverseCumulativeProbability(1 - alpha / 2);
    }

    /** Shift of the normalised residual that is found with the stated power. */
    public double detectableShift() {
        return critical() + NORMAL.inverseCumulativeProbability(power);
    }

    /** Greatest normalised residual that passes, where sigma comes from the same residuals: Pope's tau. */
    public double criticalTau(int degreesOfFreedom) {
        return tau(alpha, degreesOfFreedom);
    }

    /** Pope's tau for a two-sided chance; with one value to spare every residual is as large, and none can be named. */
    static double tau(double alpha, int degreesOfFreedom) {
        if (degreesOfFreedom < 2) {
            return Double.POSITIVE_INFINITY;
        }
        double t = Estimate.tFactor(1 - alpha, degreesOfFreedom - 1);
        return t * Math.sqrt(degreesOfFreedom) / Math.sqrt(degreesOfFreedom - 1 + t * t);
    }
}
