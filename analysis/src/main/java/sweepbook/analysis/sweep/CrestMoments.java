package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * Mean and covariance of a pass' crest and of the contact's curvature.
 *
 * @param bend curvature, per mm
 * @param covariance of both
 */
record CrestMoments(double crest_mm, double bend, double crestVariance_mm2, double covariance, double bendVariance) {

    /** @param factor of the inverse of the covariance of parameters that begin with crest and bend */
    static CrestMoments of(double crest_mm, double bend, Cholesky factor) {
        return new CrestMoments(crest_mm, bend, factor.inverse(0, 0), factor.inverse(0, 1), factor.inverse(1, 1));
    }

    /** Of one of several explanations of the same readings, nobody knows which. */
    static CrestMoments mixed(List<CrestMoments> each, double[] share) {
        double crest = 0;
        double bend = 0;
        for (int i = 0; i < share.length; i++) {
            crest += share[i] * each.get(i).crest_mm;
            bend += share[i] * each.get(i).bend;
        }
        double crestVariance = 0;
        double covariance = 0;
        double bendVariance = 0;
        for (int i = 0; i < share.length; i++) {
            CrestMoments one = each.get(i);
            double dh = one.crest_mm - crest;
            double dg = one.bend - bend;
            crestVariance += share[i] * (one.crestVariance_mm2 + dh * dh);
            covariance += share[i] * (one.covariance + dh * dg);
            bendVariance += share[i] * (one.bendVariance + dg * dg);
        }
        return new CrestMoments(crest, bend, crestVariance, covariance, bendVariance);
    }

    /** Shares that add up to one, from logs of evidence. */
    static double[] shares(double[] logEvidence) {
        double top = Arrays.stream(logEvidence).max().orElse(0);
        double[] share =
                Arrays.stream(logEvidence).map(e -> FastMath.exp(e - top)).toArray();
        double sum = Arrays.stream(share).sum();
        return Arrays.stream(share).map(s -> s / sum).toArray();
    }
}
