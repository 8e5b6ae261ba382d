package sweepbook.analysis.runout.fit;

/** Cholesky factor L of a small symmetric positive definite matrix L L'. */
final class DenseCholesky {
    /** Its transpose: upper triangle, by rows. */
    private final double[][] upper;

    /** @param matrix of which the upper triangle is read; overwritten */
    DenseCholesky(double[][] matrix) {
        upper = matrix;
        for (int i = 0; i < upper.length; i++) {
            double[] row = upper[i];
            if (row[i] <= 0) {
                throw new IllegalArgumentException("not positive definite at " + i + ": " + row[i]);
            }
            row[i] = Math.sqrt(row[i]);
            double inverse = 1 / row[i];
            for (int q = upper.length - 1; q > i; q--) {
                row[q] *= inverse;
                subtract(upper[q], q, row[q], row);
            }
        }
    }

    /** From a place on to the end. */
    private static void subtract(double[] from, int begin, double factor, double[] row) {
        for (int k = begin; k < row.length; k++) {
            from[k] -= factor * row[k];
        }
    }

    double logDeterminant() {
        double sum = 0;
        for (int j = 0; j < upper.length; j++) {
            sum += 2 * Math.log(upper[j][j]);
        }
        return sum;
    }

    /** Solves in place. */
    void solve(double[] right) {
        solve(right, 0);
    }

    /** @param begin before it the right hand side is zero */
    private void solve(double[] x, int begin) {
        for (int j = begin; j < x.length; j++) {
            x[j] /= upper[j][j];
            subtract(x, j + 1, x[j], upper[j]);
        }
        for (int j = x.length - 1; j >= 0; j--) {
            x[j] /= upper[j][j];
            for (int i = 0; i < j; i++) {
                x[i] -= x[j] * upper[i][j];
            }
        }
    }

    double[][] inverse() {
        double[][] inverse = new double[upper.length][upper.length];
        for (int j = 0; j < upper.length; j++) {
            double[] column = new double[upper.length];
            column[j] = 1;
            solve(column, j);
            for (int i = 0; i < column.length; i++) {
                inverse[i][j] = column[i];
            }
        }
        return inverse;
    }
}
