package sweepbook.analysis.uncertainty;

import java.util.function.UnaryOperator;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.RealMatrix;

/**
 * Several results from several correlated inputs: the covariance goes through the Jacobian (JCGM 100:2008, 5.2 and
 * JCGM 102:2011, 6.2), found by central differences.
 *
 * @param values results of the model at the inputs
 * @param covariance of the results
 */
public record Propagation(double[] values, RealMatrix covariance) {
    /** Half-step of the differences, in standard uncertainties: the curvature within it counts, what lies beyond not. */
    private static final double STEP = 1e-3;

    /**
     * @param model results from inputs; called near the inputs only
     * @param covariance of the inputs; an input with variance 0 is taken as constant
     */
    public static Propagation of(UnaryOperator<double[]> model, double[] inputs, RealMatrix covariance) {
        double[] values = model.apply(inputs.clone());
        RealMatrix jacobian = new Array2DRowRealMatrix(values.length, inputs.length);
        for (int j = 0; j < inputs.length; j++) {
            double step = STEP * Math.sqrt(covariance.getEntry(j, j));
            if (step > 0) {
                double[] above = model.apply(moved(inputs, j, step));
                double[] below = model.apply(moved(inputs, j, -step));
                for (int i = 0; i < values.length; i++) {
                    jacobian.setEntry(i, j, (above[i] - below[i]) / (2 * step));
                }
            }
        }
        return new Propagation(values, jacobian.multiply(covariance).multiplyTransposed(jacobian));
    }

    private static double[] moved(double[] inputs, int j, double step) {
        double[] moved = inputs.clone();
        moved[j] += step;
        return moved;
    }

    public double stdU(int i) {
        return Math.sqrt(covariance.getEntry(i, i));
    }

    public double correlation(int i, int j) {
        return covariance.getEntry(i, j) / (stdU(i) * stdU(j));
    }
}
