package sweepbook.analysis.uncertainty;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * A measured value that never travels without how well it is known.
 *
 * @param value best estimate, in millimetres unless the holder's name says otherwise
 * @param stdU standard uncertainty, same unit, not negative
 * @param degreesOfFreedom of stdU; infinite where it is taken as exactly known
 */
public record Estimate(double value, double stdU, double degreesOfFreedom) {
    public Estimate {
        if (!Double.isFinite(value) || !(stdU >= 0) || !(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException("not an estimate: value " + value + ", standard uncertainty " + stdU
                    + ", degrees of freedom " + degreesOfFreedom);
        }
    }

    public static Estimate exact(double value) {
        return new Estimate(value, 0, Double.POSITIVE_INFINITY);
    }

    /** Half-width of the interval that covers the truth with 95 % probability (JCGM 100:2008, G.3.2). */
    public double u95() {
        return tFactor(0.95, degreesOfFreedom) * stdU;
    }

    /** Two-sided t-factor: the central interval of +-t holds the probability (JCGM 100:2008, table G.2). */
    public static double tFactor(double probability, double degreesOfFreedom) {
        // Beyond a million degrees of freedom t and normal quantiles agree to seven digits.
        return new TDistribution(Math.min(degreesOfFreedom, 1e6)).inverseCumulativeProbability((1 + probability) / 2);
    }
}
