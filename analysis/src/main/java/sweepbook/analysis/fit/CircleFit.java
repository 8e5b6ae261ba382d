package sweepbook.analysis.fit;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.util.Pair;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The circle with the least sum of squared distances from points (geometric fit): the centre of a rotary axis from
 * where one feature stood at several of its positions. An algebraic fit, which is biased on short arcs, only gives the
 * start.
 */
public final class CircleFit {
    private final CurveFit fit;

    /** At least four points that are not on one line. */
    public CircleFit(double[] x_mm, double[] y_mm) {
        if (x_mm.length != y_mm.length || x_mm.length < 4) {
            throw new IllegalArgumentException("a circle with its uncertainty needs 4 points, not " + x_mm.length
                    + " and " + y_mm.length + " coordinates");
        }
        fit = new CurveFit(
                centreAndRadius -> distances(
                        x_mm,
                        y_mm,
                        centreAndRadius.getEntry(0),
                        centreAndRadius.getEntry(1),
                        centreAndRadius.getEntry(2)),
                start(x_mm, y_mm),
                new double[x_mm.length]);
    }

    /** x^2 + y^2 = 2 a x + 2 b y + c about the mean of the points. */
    static double[] start(double[] x_mm, double[] y_mm) {
        double meanX_mm = mean(x_mm);
        double meanY_mm = mean(y_mm);
        double[][] rows = new double[x_mm.length][];
        double[] square = new double[x_mm.length];
        for (int i = 0; i < rows.length; i++) {
            double x = x_mm[i] - meanX_mm;
            double y = y_mm[i] - meanY_mm;
            rows[i] = new double[] {2 * x, 2 * y, 1};
            square[i] = x * x + y * y;
        }
        LinearFit algebraic = new LinearFit(rows, square);
        double a = algebraic.parameter(0);
        double b = algebraic.parameter(1);
        return new double[] {meanX_mm + a, meanY_mm + b, Math.sqrt(a * a + b * b + algebraic.parameter(2))};
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }

    private static Pair<RealVector, RealMatrix> distances(
            double[] x_mm, double[] y_mm, double centreX_mm, double centreY_mm, double radius_mm) {
        double[] distance_mm = new double[x_mm.length];
        double[][] derivatives = new double[x_mm.length][];
        for (int i = 0; i < x_mm.length; i++) {
            double dx_mm = x_mm[i] - centreX_mm;
            double dy_mm = y_mm[i] - centreY_mm;
            double from_mm = Math.hypot(dx_mm, dy_mm);
            distance_mm[i] = from_mm - radius_mm;
            derivatives[i] = new double[] {-dx_mm / from_mm, -dy_mm / from_mm, -1};
        }
        return new Pair<>(new ArrayRealVector(distance_mm, false), new Array2DRowRealMatrix(derivatives, false));
    }

    public Estimate centreX() {
        return fit.estimate(0);
    }

    public Estimate centreY() {
        return fit.estimate(1);
    }

    public Estimate radius() {
        return fit.estimate(2);
    }

    /** Sum of the squared distances of the points from the circle, in square millimetres. */
    public double sumOfSquares_mm2() {
        return fit.sumOfSquares();
    }
}
