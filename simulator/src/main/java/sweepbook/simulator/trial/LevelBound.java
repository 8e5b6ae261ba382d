package sweepbook.simulator.trial;

import java.util.HashMap;
import java.util.Map;
import org.hipparchus.special.Erf;

/**
 * How well the readings of a dwell tell its level when everything else is known: the standard deviation of the level's
 * distribution given the readings, where nothing was known of it before.
 *
 * <p>A reading r says that level + noise lay within (r - q/2, r + q/2). Its mean square over many dwells is the least mean
 * square error that any estimate can have; a needle that stands on one digit has q / sqrt(12), noise far above q has
 * sqrt((sigma^2 + q^2 / 12) / n).
 */
final class LevelBound {
    private static final int POINTS = 401;

    private LevelBound() {}

    /** The bound from readings of which the true departures from the common level are known. */
    static double stdU_mm(double[] reading_mm, double[] departure_mm, double noise_mm, double step_mm) {
        int n = reading_mm.length;
        double mean_mm = 0;
        // A needle at rest shows few different values, and each needs to be weighed once only.
        Map<Double, Integer> counts = new HashMap<>();
        for (int i = 0; i < n; i++) {
            mean_mm += (reading_mm[i] - departure_mm[i]) / n;
            counts.merge(reading_mm[i] - departure_mm[i], 1, Integer::sum);
        }
        double half_mm = step_mm + 6 * noise_mm / Math.sqrt(n);
        double[] logLikelihood = new double[POINTS];
        double best = Double.NEGATIVE_INFINITY;
        for (int k = 0; k < POINTS; k++) {
            for (Map.Entry<Double, Integer> shown : counts.entrySet()) {
                double off_mm = shown.getKey() - level(mean_mm, half_mm, k);
                logLikelihood[k] += shown.getValue() * Math.log(within(off_mm, noise_mm, step_mm));
            }
            best = Math.max(best, logLikelihood[k]);
        }
        double weight = 0;
        double first_mm = 0;
        double second_mm2 = 0;
        for (int k = 0; k < POINTS; k++) {
            double likelihood = Math.exp(logLikelihood[k] - best);
            double level_mm = level(0, half_mm, k);
            weight += likelihood;
            first_mm += likelihood * level_mm;
            second_mm2 += likelihood * level_mm * level_mm;
        }
        double centre_mm = first_mm / weight;
        return Math.sqrt(second_mm2 / weight - centre_mm * centre_mm);
    }

    private static double level(double middle_mm, double half_mm, int k) {
        return middle_mm + half_mm * (2.0 * k / (POINTS - 1) - 1);
    }

    private static double within(double off_mm, double noise_mm, double step_mm) {
        double scale_mm = noise_mm * Math.sqrt(2);
        double probability = Erf.erf((off_mm - step_mm / 2) / scale_mm, (off_mm + step_mm / 2) / scale_mm) / 2;
        return Math.max(probability, 1e-300);
    }
}
