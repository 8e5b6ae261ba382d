package sweepbook.analysis.runout.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How strong undulations are beyond the highest that readings can tell. Those of turned parts fall off with a power of
 * their number, k in variance, which the seen ones tell but poorly; so every k and strength counts as much as it makes
 * probable what was seen.
 */
final class FallOff {
    /** Amplitudes that fall off with the number itself, as at an edge, to those of a smooth form. */
    private static final double[] POWERS = {2, 3, 4, 5, 6, 7, 8};

    private static final int STRENGTHS = 60;
    /** Strengths tried lie so far below and above what was seen, each as likely as the next by its logarithm. */
    private static final double SPAN = 1e3;

    private record Seen(int upr, double square_mm2, double noise_mm2) {}

    private final List<Seen> seen = new ArrayList<>();

    /** An undulation, by the mean square of its two parts and their variance by noise. */
    void saw(int upr, double square_mm2, double noise_mm2) {
        seen.add(new Seen(upr, square_mm2, noise_mm2));
    }

    /** Mean square at one point of the undulations beyond so many a turn, up to the last; 0 where none was seen. */
    double beyond_mm2(int order, int last) {
        double most = Double.NEGATIVE_INFINITY;
        double[] log = new double[POWERS.length * STRENGTHS];
        double[] left_mm2 = new double[log.length];
        for (int t = 0; t < log.length; t++) {
            double power = POWERS[t / STRENGTHS];
            double times = Math.pow(SPAN, 2.0 * (t % STRENGTHS) / (STRENGTHS - 1) - 1);
            double strength_mm2 = times * strength_mm2(power);
            log[t] = logProbability(power, strength_mm2);
            left_mm2[t] = strength_mm2
                    * IntStream.rangeClosed(order + 1, last)
                            .mapToDouble(n -> Math.pow(n, -power))
                            .sum();
            most = Math.max(most, log[t]);
        }
        double sum = 0;
        double weights = 0;
        for (int t = 0; t < log.length; t++) {
            double weight = Math.exp(log[t] - most);
            weights += weight;
            sum += weight * left_mm2[t];
        }
        return seen.isEmpty() ? 0 : sum / weights;
    }

    /** Of an undulation of one a turn, were what was seen all of the part. */
    private double strength_mm2(double power) {
        return seen.stream()
                .mapToDouble(one -> one.square_mm2() * Math.pow(one.upr(), power))
                .average()
                .orElse(0);
    }

    private double logProbability(double power, double strength_mm2) {
        return seen.stream()
                .mapToDouble(one -> {
                    double both_mm2 = strength_mm2 * Math.pow(one.upr(), -power) + one.noise_mm2();
                    return -one.square_mm2() / both_mm2 - Math.log(both_mm2);
                })
                .sum();
    }
}
