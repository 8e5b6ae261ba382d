package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/** Solves small symmetric positive definite systems in place; the fits call it too often for a matrix library's objects. */
final class Cholesky {
    private final double[][] lower;
    private final int size;

    private Cholesky(double[][] lower, int size) {
        this.lower = lower;
        this.size = size;
    }

    /** The factor of the leading block, or null where it is not positive definite. */
    static Cholesky of(double[][] matrix, int size) {
        double[][] l = new double[size][size];
        for (int i = 0; i < size; i++) {
            double[] row = l[i];
            double[] from = matrix[i];
            double diagonal = from[i];
            for (int j = 0; j < i; j++) {
                double[] other = l[j];
                double sum = from[j];
                for (int k = 0; k < j; k++) {
                    sum -= row[k] * other[k];
                }
                row[j] = sum / other[j];
                diagonal -= row[j] * row[j];
            }
            if (!(diagonal > 0)) {
                return null;
            }
            row[i] = Math.sqrt(diagonal);
        }
        return new Cholesky(l, size);
    }

    double[] solve(double[] right) {
        double[] x = right.clone();
        for (int i = 0; i < size; i++) {
            for (int k = 0; k < i; k++) {
                x[i] -= lower[i][k] * x[k];
            }
            x[i] /= lower[i][i];
        }
        for (int i = size - 1; i >= 0; i--) {
            for (int k = i + 1; k < size; k++) {
                x[i] -= lower[k][i] * x[k];
            }
            x[i] /= lower[i][i];
        }
        return x;
    }

    double logDeterminant() {
        double sum = 0;
        for (int i = 0; i < size; i++) {
            sum += FastMath.log(lower[i][i]);
        }
        return 2 * sum;
    }

    /** A column of the inverse. */
    double[] inverseColumn(int column) {
        double[] unit = new double[size];
        unit[column] = 1;
        return solve(unit);
    }
}
