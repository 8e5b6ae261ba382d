package sweepbook.analysis.uncertainty;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * A measured value that never travels without how well it is known.
 *
 * @param value best estimate, in millimetres unless the holder's name says otherwise
 * @param stdU standard uncertainty, same unit, not negative
 * @param degreesOfFreedom of stdU; infinite where it is taken as exactly known
 * @param breadth U95 over that of a normal distribution of the same stdU: 1 for what is normal or made of several parts,
 *     {@link #EVEN} for what is spread evenly between two limits
 */
public record Estimate(double value, double stdU, double degreesOfFreedom, double breadth) {
    /** 95 % of an even distribution lie within 0.95 sqrt(3) standard deviations, of a normal one within 1.96. */
    public static final double EVEN = 0.95 * Math.sqrt(3) / 1.959964;

    public Estimate {
        if (!Double.isFinite(value) || !(stdU >= 0) || !(degreesOfFreedom > 0) || !(breadth > 0)) {
            throw new IllegalArgumentException("not an estimate: value " + value + ", standard uncertainty " + stdU
                    + ", degrees of freedom " + degreesOfFreedom);
        }
    }

    /** Of a normal distribution, or one made of several parts. */
    public Estimate(double value, double stdU, double degreesOfFreedom) {
        this(value, stdU, degreesOfFreedom, 1);
    }

    public static Estimate exact(double value) {
        return new Estimate(value, 0, Double.POSITIVE_INFINITY);
    }

    /** A value so much smaller, known as well. */
    public Estimate less(double by) {
        return new Estimate(value - by, stdU, degreesOfFreedom, breadth);
    }

    /** The same in the direction of the sign, +1 or -1. */
    public Estimate turned(int sign) {
        return new Estimate(sign * value, stdU, degreesOfFreedom, breadth);
    }

    /** The same value, off by something else too: independent, and of this standard uncertainty. */
    public Estimate with(double otherStdU) {
        return new Estimate(value, Math.hypot(stdU, otherStdU), degreesOfFreedom, breadth);
    }

    /** Half-width of the interval that covers the truth with 95 % probability (JCGM 100:2008, G.3.2). */
    public double u95() {
        return breadth * tFactor(0.95, degreesOfFreedom) * stdU;
    }

    /** Two-sided t-factor: the central interval of +-t holds the probability (JCGM 100:2008, table G.2). */
    public static double tFactor(double probability, double degreesOfFreedom) {
        // Beyond a million degrees of freedom t and normal quantiles agree to seven digits.
        return new TDistribution(Math.min(degreesOfFreedom, 1e6)).inverseCumulativeProbability((1 + probability) / 2);
    }
}
