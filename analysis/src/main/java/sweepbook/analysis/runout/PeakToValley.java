package sweepbook.analysis.runout;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.random.RandomGenerator;
import org.hipparchus.random.Well19937c;
import sweepbook.analysis.runout.fit.LikelyForm;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.TurnFit;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The greatest less the least of a curve made of a fit's undulations. Which points are greatest and least changes with the
 * noise, so that its uncertainty is no matter of two points: curves are drawn as probable as the readings leave them
 * (JCGM 101), undulations that noise hides in them, and the spread of their ranges is taken.
 */
final class PeakToValley {
    private static final int DRAWS = 400;
    private static final long SEED = 12181;
    private static final int POINTS_AN_UNDULATION = 10;
    private static final int LEAST_POINTS = 120;
    private static final int MOST_POINTS = 720;

    private final TurnFit fit;
    private final double pointVariance_mm2;
    private final int points;
    private final double[] cosine;
    private final int[] upr;
    /** Of each draw its undulations' parts, departures from the likely form: fitted ones first, then hidden ones. */
    private final double[][] draws = new double[DRAWS][];

    /** @param unseen_mm2 variance at one point by undulations beyond those looked at */
    PeakToValley(TurnFit fit, LikelyForm likely, double unseen_mm2) {
        this.fit = fit;
        pointVariance_mm2 = unseen_mm2 + fit.roundingLeft_mm2();
        int[] fitted = likely.profile().upr();
        double[] hidden = likely.hidden_mm2();
        upr = new int[fitted.length + hidden.length];
        int count = 0;
        int most = 1;
        for (int n : fitted) {
            upr[count++] = n;
            most = Math.max(most, n);
        }
        for (int n = 2; n < hidden.length; n++) {
            if (hidden[n] > 0) {
                upr[count++] = n;
                most = Math.max(most, n);
            }
        }
        // A multiple of four, for the sine is the cosine a quarter later.
        points = (Math.min(MOST_POINTS, Math.max(LEAST_POINTS, POINTS_AN_UNDULATION * most)) + 3) / 4 * 4;
        cosine = new double[2 * points];
        for (int i = 0; i < cosine.length; i++) {
            cosine[i] = Math.cos(2 * Math.PI * i / points);
        }
        draw(likely.covariance(), hidden, fitted.length, count);
    }

    private void draw(RealMatrix covariance, double[] hidden, int fitted, int count) {
        RandomGenerator random = new Well19937c(SEED);
        RealMatrix root = new CholeskyDecomposition(ridged(covariance), 1e-6, 0).getL();
        int p = root.getRowDimension();
        double[] z = new double[p];
        for (int d = 0; d < DRAWS; d++) {
            for (int k = 0; k < p; k++) {
                z[k] = random.nextGaussian();
            }
            double[] off = root.operate(z);
            draws[d] = new double[2 * count];
            for (int j = 0; j < count; j++) {
                boolean isFitted = j < fitted;
                double u = isFitted ? 0 : Math.sqrt(hidden[upr[j]]);
                draws[d][2 * j] = isFitted ? off[fit.column(j)] : random.nextGaussian() * u;
                draws[d][2 * j + 1] = isFitted ? off[fit.column(j) + 1] : random.nextGaussian() * u;
            }
        }
    }

    private static RealMatrix ridged(RealMatrix covariance) {
        RealMatrix ridged = covariance.copy();
        for (int j = 0; j < ridged.getRowDimension(); j++) {
            ridged.multiplyEntry(j, j, 1 + 1e-9);
            ridged.addToEntry(j, j, 1e-24);
        }
        return ridged;
    }

    /**
     * The ranges of curves.
     *
     * @param passed weight of each undulation of the likely form in all of them, by undulation number
     */
    List<Estimate> of(IntToDoubleFunction passed, List<Profile> curves) {
        List<double[]> bases =
                curves.stream().map(curve -> curve.sampled(points)).toList();
        double[] none = new double[points];
        double[] likely = bases.stream().mapToDouble(base -> range(base, none)).toArray();
        double[] squares = new double[curves.size()];
        for (double[] draw : draws) {
            double[] off = new double[points];
            for (int j = 0; 2 * j < draw.length; j++) {
                double weight = passed.applyAsDouble(upr[j]);
                if (weight != 0) {
                    add(off, upr[j], weight * draw[2 * j], weight * draw[2 * j + 1]);
                }
            }
            for (int c = 0; c < squares.length; c++) {
                squares[c] += Math.pow(range(bases.get(c), off) - likely[c], 2);
            }
        }
        List<Estimate> ranges = new ArrayList<>();
        for (int c = 0; c < squares.length; c++) {
            ranges.add(new Estimate(
                    range(curves.get(c).sampled(Figures.STEPS), new double[Figures.STEPS]),
                    Math.sqrt(squares[c] / DRAWS + 2 * pointVariance_mm2),
                    fit.degreesOfFreedom()));
        }
        return ranges;
    }

    private void add(double[] at, int n, double cos, double sin) {
        int turned = 0;
        int quarter = points - points / 4;
        for (int i = 0; i < points; i++) {
            at[i] += cos * cosine[turned] + sin * cosine[turned + quarter];
            turned += n;
            turned -= turned >= points ? points : 0;
        }
    }

    /** Of the sum of two curves. */
    private static double range(double[] base, double[] off) {
        double most = Double.NEGATIVE_INFINITY;
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < base.length; i++) {
            double v = base[i] + off[i];
            most = Math.max(most, v);
            least = Math.min(least, v);
        }
        return most - least;
    }
}
