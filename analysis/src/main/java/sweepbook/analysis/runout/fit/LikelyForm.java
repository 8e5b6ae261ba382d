package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;

/**
 * The form as it most likely is, given that a fit makes some of every undulation out of noise. Undulations that stand out
 * are taken as they are; the others are alike, of a strength that what is seen of them makes probable, and shrink towards
 * nothing accordingly. What the shrunk ones share with eccentricity, through a motion that is not quite known, goes back
 * to it. See docs/runout.md.
 */
public final class LikelyForm {
    /** Keeps the factors real. */
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
        double usual_mm2 = HarmonicChoice.coefficientVariance(fit) * inflation;
        AlikeStrength alike = new AlikeStrength();
        int[] upr = fit.profile().upr();
        RealVector x = fit.coefficients();
        IntStream.Builder hiding = IntStream.builder();
        for (int j = 0; j < upr.length; j++) {
            int c = fit.column(j);
            if (upr[j] > 1 && standsOut(covariance, x, c, HarmonicChoice.stands(upr[j]))) {
                standing.add(upr[j]);
            } else if (upr[j] > 1) {
                double noise = (covariance.getEntry(c, c) + covariance.getEntry(c + 1, c + 1)) / 2;
                double square = (Math.pow(x.getEntry(c), 2) + Math.pow(x.getEntry(c + 1), 2)) / 2;
                alike.saw(square, noise, HarmonicChoice.stands(upr[j]) / 2);
                hiding.add(c).add(c + 1);
            }
        }
        int[] columns = hiding.build().toArray();
        double[] seen_mm2 = HarmonicChoice.seen_mm2(fit, order);
        IntStream.range(0, seen_mm2.length)
                .filter(n -> seen_mm2[n] > 0)
                .forEach(n -> alike.saw(seen_mm2[n], usual_mm2, HarmonicChoice.stands(n) / 2));
        List<AlikeStrength.Likely> strengths = alike.all();
        hidden_mm2 = Arrays.stream(seen_mm2)
                .map(s -> s == 0 ? 0 : AlikeStrength.hidden_mm2(strengths, s, usual_mm2))
                .toArray();

        if (columns.length == 0) {
            profile = fit.profile();
            this.covariance = symmetric(covariance);
            return;
        }
        RealMatrix ofForm = symmetric(covariance.getSubMatrix(columns, columns));
        RealMatrix across = covariance.getSubMatrix(
                IntStream.range(0, covariance.getRowDimension()).toArray(), columns);
        double[] ofX = Arrays.stream(columns).mapToDouble(x::getEntry).toArray();
        RealVector off = new ArrayRealVector(x.getDimension());
        RealMatrix second = new Array2DRowRealMatrix(x.getDimension(), x.getDimension());
        for (AlikeStrength.Likely strength : strengths) {
            RealMatrix pulled = ofForm.copy();
            for (int i = 0; i < columns.length; i++) {
                pulled.addToEntry(i, i, strength.variance_mm2());
            }
            RealMatrix gain = across.multiply(new CholeskyDecomposition(pulled, 1e-9, SLIGHT * SLIGHT)
                    .getSolver()
                    .getInverse());
            RealVector pull = new ArrayRealVector(gain.operate(ofX), false).mapMultiply(-1);
            off = off.add(pull.mapMultiply(strength.weight()));
            second = second.add(pull.outerProduct(pull)
                    .subtract(gain.multiply(across.transpose()))
                    .scalarMultiply(strength.weight()));
        }
        this.covariance = symmetric(covariance.add(second).subtract(off.outerProduct(off)));
        profile = profile(fit, upr, x.add(off));
    }

    /** Sums of products are symmetric but for rounding, which a factorization does not forgive in entries near zero. */
    private static RealMatrix symmetric(RealMatrix matrix) {
        return matrix.add(matrix.transpose()).scalarMultiply(0.5);
    }

    private static Profile profile(TurnFit fit, int[] upr, RealVector x) {
        double[] cos = new double[upr.length];
        double[] sin = new double[upr.length];
        for (int j = 0; j < upr.length; j++) {
            cos[j] = x.getEntry(fit.column(j));
            sin[j] = x.getEntry(fit.column(j) + 1);
        }
        return new Profile(x.getEntry(0), upr, cos, sin);
    }

    private static boolean standsOut(RealMatrix covariance, RealVector x, int c, double least) {
        double a = covariance.getEntry(c, c);
        double b = covariance.getEntry(c, c + 1);
        double d = covariance.getEntry(c + 1, c + 1);
        double cos = x.getEntry(c);
        double sin = x.getEntry(c + 1);
        return (d * cos * cos - 2 * b * cos * sin + a * sin * sin) / (a * d - b * b) > least;
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
