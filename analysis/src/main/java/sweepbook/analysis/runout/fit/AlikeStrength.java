package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How strong undulations are that are all alike and that noise hides: so few of them cannot tell one value, so there are
 * several, each with the probability that it gives to what was seen. Beforehand every share of noise in what is seen is as
 * likely as the next (the uniform shrinkage prior: Daniels, Canad. J. Statist. 27 (1999) 567; cited from memory).
 */
final class AlikeStrength {
    private static final int STRENGTHS = 15;

    private final double stands;
    private final double[] variance_mm2 = new double[STRENGTHS];
    private final double[] logProbability = new double[STRENGTHS];

    /**
     * @param noise_mm2 usual variance of one part of an undulation by noise
     * @param stands mean square of the two parts, in such variances, from which an undulation is no longer one of them
     */
    AlikeStrength(double noise_mm2, double stands) {
        this.stands = stands;
        for (int t = 0; t < STRENGTHS; t++) {
            double share = (t + 0.5) / STRENGTHS;
            variance_mm2[t] = noise_mm2 * (1 - share) / share;
        }
    }

    /** One of them, by the mean square of its two parts and their variance by noise. */
    void saw(double square_mm2, double noise_mm2) {
        for (int t = 0; t < STRENGTHS; t++) {
            double both_mm2 = variance_mm2[t] + noise_mm2;
            // It is one of them only because it does not stand out, which the stronger do more often.
            double hides = -Math.expm1(-stands * noise_mm2 / both_mm2);
            logProbability[t] -= square_mm2 / both_mm2 + Math.log(both_mm2 * hides);
        }
    }

    /** A strength, as the variance of each part of an undulation, and its probability. */
    record Likely(double variance_mm2, double weight) {}

    List<Likely> all() {
        double most = Arrays.stream(logProbability).max().orElseThrow();
        double[] odds =
                Arrays.stream(logProbability).map(l -> Math.exp(l - most)).toArray();
        double sum = Arrays.stream(odds).sum();
        return IntStream.range(0, STRENGTHS)
                .mapToObj(t -> new Likely(variance_mm2[t], odds[t] / sum))
                .toList();
    }

    /** Mean square of each part of one that is not fitted, given what is seen of it. */
    double hidden_mm2(double square_mm2, double noise_mm2) {
        return all().stream()
                .mapToDouble(strength -> {
                    double share = strength.variance_mm2() / (strength.variance_mm2() + noise_mm2);
                    return strength.weight() * share * (noise_mm2 + share * square_mm2);
                })
                .sum();
    }
}
