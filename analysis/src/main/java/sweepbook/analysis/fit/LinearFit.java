package sweepbook.analysis.fit;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Least squares of a model that is linear in its parameters: value = sum of parameter times basis function. Solved by
 * orthogonal triangulation of the design matrix with its columns brought to one length, never by normal equations.
 *
 * <p>As many values as parameters give an exact fit; its scatter is NaN.
 */
public final class LinearFit {
    /** A column whose independent part is smaller than this against its length says nothing of its own. */
    private static final double RANK_THRESHOLD = 1e-13;

    private final RealMatrix design;
    private final double[] parameter;
    private final RealMatrix cofactor; // covariance of the parameters over the variance of one value
    private final double[] residual;
    private final double scatter;

    /**
     * @param rows of the design matrix: one for each value, with a basis function a parameter
     * @throws IllegalArgumentException if there are fewer values than parameters, or the columns depend on each other
     */
    public LinearFit(double[][] rows, double[] value) {
        design = new Array2DRowRealMatrix(rows);
        int parameters = design.getColumnDimension();
        if (rows.length < parameters || value.length != rows.length) {
            throw new IllegalArgumentException(parameters + " parameters cannot be found from " + rows.length
                    + " rows with " + value.length + " values");
        }
        RealMatrix unscale = MatrixUtils.createRealMatrix(parameters, parameters);
        for (int j = 0; j < parameters; j++) {
            double length = design.getColumnVector(j).getNorm();
            unscale.setEntry(j, j, length > 0 ? 1 / length : 1);
        }
        QRDecomposition qr = new QRDecomposition(design.multiply(unscale), RANK_THRESHOLD);
        if (!qr.getSolver().isNonSingular()) {
            throw new IllegalArgumentException("the values do not determine all " + parameters
                    + " parameters: they were taken where these cannot be told apart");
        }
        parameter = unscale.operate(
                qr.getSolver().solve(new ArrayRealVector(value, false)).toArray());
        residual = new ArrayRealVector(value)
                .subtract(new ArrayRealVector(design.operate(parameter), false))
                .toArray();
        double norm = new ArrayRealVector(residual, false).getNorm();
        scatter = degreesOfFreedom() > 0 ? norm / Math.sqrt(degreesOfFreedom()) : Double.NaN;
        RealMatrix inverse =
                unscale.multiply(MatrixUtils.inverse(qr.getR().getSubMatrix(0, parameters - 1, 0, parameters - 1)));
        cofactor = inverse.multiplyTransposed(inverse);
    }

    /** Values beyond the number that would just do. */
    public int degreesOfFreedom() {
        return residual.length - parameter.length;
    }

    /** Standard deviation of a single value about the model, from the residuals; NaN with no value to spare. */
    public double scatter() {
        return scatter;
    }

    public double parameter(int j) {
        return parameter[j];
    }

    /** The model for a row of basis functions, with its uncertainty from the scatter; only with values to spare. */
    public Estimate at(double... basis) {
        double value = 0;
        for (int j = 0; j < basis.length; j++) {
            value += basis[j] * parameter[j];
        }
        return new Estimate(value, scatter * Math.sqrt(varianceFactor(basis)), degreesOfFreedom());
    }

    /** A parameter with its uncertainty from the scatter; only with values to spare. */
    public Estimate estimate(int j) {
        return at(unit(j));
    }

    /** With which weight each value goes into a parameter. */
    public double[] weights(int j) {
        return design.operate(cofactor.operate(unit(j)));
    }

    /** Covariance of two parameters over the variance of one value. */
    public double cofactor(int i, int j) {
        return cofactor.getEntry(i, j);
    }

    /** Value less model, in the order of the values. */
    public double[] residuals() {
        return residual.clone();
    }

    private double varianceFactor(double[] basis) {
        return new ArrayRealVector(basis, false).dotProduct(new ArrayRealVector(cofactor.operate(basis), false));
    }

    private double[] unit(int j) {
        double[] unit = new double[parameter.length];
        unit[j] = 1;
        return unit;
    }
}
