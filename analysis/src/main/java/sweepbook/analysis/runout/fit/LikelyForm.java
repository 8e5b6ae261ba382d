package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * The form as it most likely is, given that a fit makes some of every undulation out of noise. Undulations that stand out
 * are taken as they are; the others are alike, as strong as they show together beyond their noise (empirical Bayes), and
 * shrink towards nothing accordingly. What the shrunk ones share with eccentricity, through a motion that is not quite
 * known, goes back to it. See docs/runout.md.
 */
public final class LikelyForm {
    /** Squared length, in standard deviations, that noise exceeds in one undulation of twenty. */
    private static final double STANDS = -2 * Math.log(0.05);
    /** The undulations that do not stand out are no less, in variance, than this share of their noise. */
    private static final double LEAST = 0.25;

    private static final double SLIGHT = 1e-12;

    private final Profile profile;
    private final RealMatrix covariance;
    private final double[] hidden_mm2;
    private final Set<Integer> standing = new TreeSet<>();

    /**
     * @param covariance of the fit's mean, drift and undulations
     * @param order highest undulation looked at
     * @param inflation by how much more than their noise the readings scatter, a variance ratio
     */
    public LikelyForm(TurnFit fit, RealMatrix covariance, int order, double inflation) {
        int[] upr = fit.profile().upr();
        RealVector x = fit.coefficients();
        int[] form = IntStream.range(0, upr.length).filter(j -> upr[j] > 1).toArray();
        boolean[] stands = new boolean[form.length];
        double[] noise = new double[form.length];
        double[] square = new double[form.length];
        double beyond = 0;
        int alikeOnes = 0;
        double usual = HarmonicChoice.coefficientVariance(fit) * inflation;
        for (int k = 0; k < form.length; k++) {
            int c = fit.column(form[k]);
            noise[k] = (covariance.getEntry(c, c) + covariance.getEntry(c + 1, c + 1)) / 2;
            square[k] = (Math.pow(x.getEntry(c), 2) + Math.pow(x.getEntry(c + 1), 2)) / 2;
            stands[k] = standsOut(covariance, x, c);
            if (stands[k]) {
                standing.add(upr[form[k]]);
            } else {
                beyond += square[k] - noise[k];
                alikeOnes++;
            }
        }
        double[] seen = HarmonicChoice.seen_mm2(fit, order);
        for (double s : seen) {
            if (s > 0) {
                beyond += s - usual;
                alikeOnes++;
            }
        }
        double alike = alikeOnes == 0 ? 0 : Math.max(0, beyond / alikeOnes);
        hidden_mm2 = new double[seen.length];
        double hiddenAlike = Math.max(alike, LEAST * usual);
        double share = hiddenAlike / (hiddenAlike + usual);
        for (int n = 2; n < seen.length; n++) {
            hidden_mm2[n] = seen[n] == 0 ? 0 : share * usual + share * share * seen[n];
        }

        int m = 2 * form.length;
        int p = covariance.getRowDimension();
        if (m == 0) {
            profile = fit.profile();
            this.covariance = covariance;
            return;
        }
        int[] columns = new int[m];
        RealMatrix pulled = new Array2DRowRealMatrix(m, m);
        for (int k = 0; k < form.length; k++) {
            columns[2 * k] = fit.column(form[k]);
            columns[2 * k + 1] = columns[2 * k] + 1;
        }
        RealMatrix ofForm = covariance.getSubMatrix(columns, columns);
        for (int k = 0; k < form.length; k++) {
            double strength = stands[k] ? Math.max(square[k] - noise[k], noise[k]) : Math.max(alike, LEAST * noise[k]);
            for (int i = 2 * k; i < 2 * k + 2; i++) {
                pulled.setEntry(i, i, strength);
            }
        }
        pulled = pulled.add(ofForm);
        RealMatrix inverse = new CholeskyDecomposition(pulled, 1e-9, SLIGHT * SLIGHT)
                .getSolver()
                .getInverse();
        int[] every = IntStream.range(0, p).toArray();
        RealMatrix across = covariance.getSubMatrix(every, columns);
        RealMatrix gain = across.multiply(inverse);
        double[] ofX = Arrays.stream(columns).mapToDouble(x::getEntry).toArray();
        double[] pull = gain.operate(ofX);
        this.covariance = covariance.subtract(gain.multiply(across.transpose()));
        double[] cos = new double[upr.length];
        double[] sin = new double[upr.length];
        for (int j = 0; j < upr.length; j++) {
            int c = fit.column(j);
            cos[j] = x.getEntry(c) - pull[c];
            sin[j] = x.getEntry(c + 1) - pull[c + 1];
        }
        profile = new Profile(x.getEntry(0) - pull[0], upr, cos, sin);
    }

    private static boolean standsOut(RealMatrix covariance, RealVector x, int c) {
        double a = covariance.getEntry(c, c);
        double b = covariance.getEntry(c, c + 1);
        double d = covariance.getEntry(c + 1, c + 1);
        double cos = x.getEntry(c);
        double sin = x.getEntry(c + 1);
        return (d * cos * cos - 2 * b * cos * sin + a * sin * sin) / (a * d - b * b) > STANDS;
    }

    public Profile profile() {
        return profile;
    }

    /** Of mean, drift and undulations. */
    public RealMatrix covariance() {
        return covariance;
    }

    /** Variance of each part of an undulation that is not fitted, by its number; 0 where it is. */
    public double[] hidden_mm2() {
        return hidden_mm2.clone();
    }

    /** Whether an undulation stands out of what is not known. */
    public boolean stands(int upr) {
        return standing.contains(upr);
    }
}
