package sweepbook.analysis.runout.series;

import java.util.Arrays;
import java.util.OptionalInt;
import org.hipparchus.distribution.continuous.TDistribution;

/** The one value that does not belong: Grubbs' test (ASTM E178). */
public final class Outlier {
    private Outlier() {}

    /** The value farthest from the mean, if it is too far at the significance, both sides looked at. */
    public static OptionalInt of(double[] value, double significance) {
        int n = value.length;
        if (n < 3) {
            return OptionalInt.empty();
        }
        int farthest = 0;
        for (int i = 1; i < n; i++) {
            farthest = distance(value, i) > distance(value, farthest) ? i : farthest;
        }
        return distance(value, farthest) > limit(n, significance / 2) ? OptionalInt.of(farthest) : OptionalInt.empty();
    }

    /** Distance of a value from the mean of all, in standard deviations of all. */
    public static double distance(double[] value, int i) {
        double mean = Arrays.stream(value).average().orElseThrow();
        double s =
                Math.sqrt(Arrays.stream(value).map(v -> (v - mean) * (v - mean)).sum() / (value.length - 1));
        return s == 0 ? 0 : Math.abs(value[i] - mean) / s;
    }

    /** The distance that the farthest of n normal values passes with the given probability, one side looked at. */
    public static double limit(int n, double oneSided) {
        double t = new TDistribution(n - 2).inverseCumulativeProbability(1 - oneSided / n);
        return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
    }
}
