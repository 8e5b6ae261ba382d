package sweepbook.analysis.runout.fit;

import java.util.ArrayList;
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

    private record Seen(double square_mm2, double noise_mm2, double stands) {}

    private final List<Seen> seen = new ArrayList<>();

    /**
     * One of them, by the mean square of its two parts and their variance by noise.
     *
     * @param stands mean square, in variances of noise, from which it would no longer be one of them
     */
    void saw(double square_mm2, double noise_mm2, double stands) {
        seen.add(new Seen(square_mm2, noise_mm2, stands));
    }

    private double logProbability(double variance_mm2) {
        double sum = 0;
        for (Seen one : seen) {
            double both_mm2 = variance_mm2 + one.noise_mm2();
            // It is one of them only because it does not stand out, which the stronger do more often.
            double hides = -Math.expm1(-one.stands() * one.noise_mm2() / both_mm2);
            sum -= one.square_mm2() / both_mm2 + Math.log(both_mm2 * hides);
        }
        return sum;
    }

    /** A strength, as the variance of each part of an undulation, and its probability. */
    record Likely(double variance_mm2, double weight) {}

    /** All strengths; one of nothing where none was seen. */
    List<Likely> all() {
        double noise_mm2 = seen.stream().mapToDouble(Seen::noise_mm2).average().orElse(0);
        double[] variance_mm2 = IntStream.range(0, STRENGTHS)
                .mapToDouble(t -> (t + 0.5) / STRENGTHS)
                .map(share -> noise_mm2 * (1 - share) / share)
                .toArray();
        double[] log = Arrays.stream(variance_mm2).map(this::logProbability).toArray();
        double most = Arrays.stream(log).max().orElseThrow();
        double[] odds = Arrays.stream(log).map(l -> Math.exp(l - most)).toArray();
        double sum = Arrays.stream(odds).sum();
        return IntStream.range(0, STRENGTHS)
                .mapToObj(t -> new Likely(variance_mm2[t], odds[t] / sum))
                .toList();
    }

    /** Mean square of each part of one that is not fitted, given what is seen of it. */
    static double hidden_mm2(List<Likely> strengths, double square_mm2, double noise_mm2) {
        return strengths.stream()
                .mapToDouble(strength -> {
                    double share = strength.variance_mm2() / (strength.variance_mm2() + noise_mm2);
                    return strength.weight() * share * (noise_mm2 + share * square_mm2);
                })
                .sum();
    }
}
