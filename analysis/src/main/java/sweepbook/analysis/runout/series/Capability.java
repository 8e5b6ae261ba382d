package sweepbook.analysis.runout.series;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Capability of a process against its limits, for values that are near normal (ISO 22514-2): Cp = zone / 6 s, Cpk = the
 * nearer limit's distance from the mean / 3 s, with 95 % confidence limits. Runout has an upper limit only, and zero is
 * no limit of its process: there is a Cpk and no Cp. With so few pieces as a workshop measures, the limits are wide;
 * they are the news.
 *
 * @param n pieces
 * @param mean_mm their mean
 * @param s_mm their standard deviation
 * @param cp with its confidence limits, empty with one limit only
 * @param cpk with its confidence limits (A. F. Bissell, Applied Statistics 39 (1990) 331; from memory)
 */
public record Capability(int n, double mean_mm, double s_mm, Index cp, Index cpk) {
    /** An index between its 95 % confidence limits; NaN where it does not exist. */
    public record Index(double value, double lower, double upper) {
        static final Index NONE = new Index(Double.NaN, Double.NaN, Double.NaN);

        public boolean exists() {
            return !Double.isNaN(value);
        }
    }

    private static final double CONFIDENCE = 0.95;

    /** Of values against a lower and an upper limit, at least one of them; needs two values that differ. */
    public static Capability of(double[] value_mm, OptionalDouble lower_mm, OptionalDouble upper_mm) {
        int n = value_mm.length;
        double mean = Arrays.stream(value_mm).average().orElseThrow();
        double s = Math.sqrt(
                Arrays.stream(value_mm).map(v -> (v - mean) * (v - mean)).sum() / (n - 1));
        if (!(s > 0) || lower_mm.isEmpty() && upper_mm.isEmpty()) {
            throw new IllegalArgumentException("capability needs two values that differ, and a limit");
        }
        double tail = (1 - CONFIDENCE) / 2;
        Index cp = Index.NONE;
        if (lower_mm.isPresent() && upper_mm.isPresent()) {
            double value = (upper_mm.getAsDouble() - lower_mm.getAsDouble()) / (6 * s);
            ChiSquaredDistribution chi = new ChiSquaredDistribution(n - 1);
            cp = new Index(
                    value,
                    value * Math.sqrt(chi.inverseCumulativeProbability(tail) / (n - 1)),
                    value * Math.sqrt(chi.inverseCumulativeProbability(1 - tail) / (n - 1)));
        }
        double nearer = Math.min(
                upper_mm.orElse(Double.POSITIVE_INFINITY) - mean, mean - lower_mm.orElse(Double.NEGATIVE_INFINITY));
        double cpk = nearer / (3 * s);
        double half = new NormalDistribution(0, 1).inverseCumulativeProbability(1 - tail)
                * Math.sqrt(1.0 / (9 * n) + cpk * cpk / (2 * (n - 1)));
        return new Capability(n, mean, s, cp, new Index(cpk, cpk - half, cpk + half));
    }
}
