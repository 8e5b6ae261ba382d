package sweepbook.analysis.uncertainty;

import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Whether a result keeps its tolerance, as far as its uncertainty lets it be told (ISO 14253-1).
 *
 * @param verdict what is proved
 * @param probability that the true value lies within the tolerance (JCGM 106:2012, clause 7; t-distributed for few
 *     degrees of freedom)
 * @param guardBand by how much the limits were drawn in or out, in the result's unit
 * @param rule where the guard band comes from
 * @param canConform false where the tolerance is narrower than both guard bands, so that no result at all would prove
 *     conformity
 */
public record Decision(Verdict verdict, double probability, double guardBand, GuardBand rule, boolean canConform) {
    public enum Verdict {
        CONFORMS("conforms"),
        DOES_NOT_CONFORM("does not conform"),
        CANNOT_BE_TOLD("cannot be told");

        private final String words;

        Verdict(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    public static Decision of(Estimate result, Tolerance tolerance, GuardBand rule) {
        double band = rule.width(result);
        double y = result.value();
        Verdict verdict;
        if (y >= tolerance.lower() + band && y <= tolerance.upper() - band) {
            verdict = Verdict.CONFORMS;
        } else if (y < tolerance.lower() - band || y > tolerance.upper() + band) {
            verdict = Verdict.DOES_NOT_CONFORM;
        } else {
            verdict = Verdict.CANNOT_BE_TOLD;
        }
        return new Decision(verdict, probabilityWithin(result, tolerance), band, rule, tolerance.width() >= 2 * band);
    }

    private static double probabilityWithin(Estimate result, Tolerance tolerance) {
        if (result.stdU() == 0) {
            return result.value() >= tolerance.lower() && result.value() <= tolerance.upper() ? 1 : 0;
        }
        TDistribution t = new TDistribution(Math.min(result.degreesOfFreedom(), 1e6));
        return t.cumulativeProbability((tolerance.upper() - result.value()) / result.stdU())
                - t.cumulativeProbability((tolerance.lower() - result.value()) / result.stdU());
    }
}
