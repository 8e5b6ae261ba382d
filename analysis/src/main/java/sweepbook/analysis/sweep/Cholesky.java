package sweepbook.analysis.sweep;

import java.util.Arrays;

/** Solves small symmetric positive definite systems in place; the fits call it too often for a matrix library's objects. */
final class Cholesky {
    private final double[][] lower;
    private final int size;

    private Cholesky(double[][] lower) {
        this.lower = lower;
        size = lower.length;
    }

    /** The factor of a matrix of which the lower triangle is given, or null where it is not positive definite. */
    static Cholesky of(double[][] matrix) {
        return of(matrix, 0);
    }

    /** The same where the diagonal is greater by a part of itself. */
    static Cholesky of(double[][] matrix, double part) {
        int size = matrix.length;
        double[][] l = new double[size][];
        for (int i = 0; i < size; i++) {
            l[i] = Arrays.copyOf(matrix[i], i + 1);
            l[i][i] += part * l[i][i];
        }
        for (int j = 0; j < size; j++) {
            double[] own = l[j];
            double diagonal = own[j];
            for (int k = 0; k < j; k++) {
                diagonal -= own[k] * own[k];
            }
            if (!(diagonal > 0)) {
                return null;
            }
            own[j] = Math.sqrt(diagonal);
            int i = j + 1;
            // Two rows at a time: neither sum waits for the other.
            for (; i + 1 < size; i += 2) {
                double[] row = l[i];
                double[] next = l[i + 1];
                double sum = row[j];
                double nextSum = next[j];
                for (int k = 0; k < j; k++) {
                    sum -= own[k] * row[k];
                    nextSum -= own[k] * next[k];
                }
                row[j] = sum / own[j];
                next[j] = nextSum / own[j];
            }
            if (i < size) {
                double[] row = l[i];
                for (int k = 0; k < j; k++) {
                    row[j] -= own[k] * row[k];
                }
                row[j] /= own[j];
            }
        }
        return new Cholesky(l);
    }

    double[] solve(double[] right) {
        double[] x = half(right, 0);
        for (int i = size - 1; i >= 0; i--) {
            double[] row = lower[i];
            double value = x[i] / row[i];
            x[i] = value;
            for (int k = 0; k < i; k++) {
                x[k] -= row[k] * value;
            }
        }
        return x;
    }

    /** Solves for the factor in the place of the matrix, the right side being zero before an index. */
    private double[] half(double[] right, int from) {
        double[] x = right.clone();
        for (int i = from; i < size; i++) {
            double[] row = lower[i];
            double sum = x[i];
            for (int k = from; k < i; k++) {
                sum -= row[k] * x[k];
            }
            x[i] = sum / row[i];
        }
        return x;
    }

    /** The square of a part of a vector, from an index on, less an offset, by the matrix of which this is the factor. */
    double square(double[] vector, int before, double offset) {
        double[] sums = new double[size];
        for (int i = 0; i < size; i++) {
            double[] row = lower[i];
            double off = vector[before + i] - offset;
            for (int k = 0; k <= i; k++) {
                sums[k] += row[k] * off;
            }
        }
        double square = 0;
        for (double sum : sums) {
            square += sum * sum;
        }
        return square;
    }

    /** The trace of the inverse times a matrix of which the factor of a part is given, from an index on; the rest is 0. */
    double inverseBeside(Cholesky part, int before) {
        double trace = 0;
        for (int k = 0; k < part.size; k++) {
            double[] column = new double[size];
            for (int i = k; i < part.size; i++) {
                column[before + i] = part.lower[i][k];
            }
            for (double x : half(column, before + k)) {
                trace += x * x;
            }
        }
        return trace;
    }

    /** An element of the inverse. */
    double inverse(int row, int column) {
        double[] one = halfUnit(row);
        double[] other = row == column ? one : halfUnit(column);
        double sum = 0;
        for (int i = Math.max(row, column); i < size; i++) {
            sum += one[i] * other[i];
        }
        return sum;
    }

    private double[] halfUnit(int at) {
        double[] unit = new double[size];
        unit[at] = 1;
        return half(unit, at);
    }

    double logDeterminant() {
        double sum = 0;
        for (int i = 0; i < size; i++) {
            sum += Math.log(lower[i][i]);
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
