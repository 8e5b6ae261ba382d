package sweepbook.analysis.runout.circle;

import java.util.Arrays;

/**
 * The least of c.x over all x with a(i).x >= b(i), for a handful of unknowns under very many conditions: the exchange
 * of Stiefel, that is the dual simplex method. The conditions that hold with equality fix x; the condition that is
 * broken worst comes in, and the one goes out that keeps every weight positive. Exact but for rounding.
 *
 * <p>E. Stiefel, Note on Jordan elimination, linear programming and Tchebycheff approximation, Numer. Math. 2 (1960) 1.
 */
final class DualSimplex {
    private static final int MOST_EXCHANGES = 10_000;

    /** The conditions, by number. */
    interface Conditions {
        int count();

        /** Fills the row and returns the right hand side. */
        double row(int i, double[] row);
    }

    private final double[] cost;
    private final Conditions conditions;
    private final int[] basis;
    private double[] x;

    /** @param start conditions, as many as unknowns, whose equality holds x up: their weights are not negative */
    DualSimplex(double[] cost, Conditions conditions, int[] start) {
        this.cost = cost;
        this.conditions = conditions;
        basis = start.clone();
        run();
    }

    double[] solution() {
        return x.clone();
    }

    /** The conditions that hold with equality and fix the solution. */
    int[] holding() {
        return basis.clone();
    }

    private void run() {
        int m = cost.length;
        double[] row = new double[m];
        for (int exchange = 0; exchange < MOST_EXCHANGES; exchange++) {
            double[][] a = new double[m][m];
            double[] b = new double[m];
            double size = 0;
            for (int k = 0; k < m; k++) {
                b[k] = conditions.row(basis[k], a[k]);
                size = Math.max(size, Math.abs(b[k]));
            }
            x = solve(a, b);
            int worst = -1;
            double broken = 1e-15 * Math.max(size, 1e-12);
            for (int i = 0; i < conditions.count(); i++) {
                double b1 = conditions.row(i, row);
                double short1 = b1;
                for (int j = 0; j < m; j++) {
                    short1 -= row[j] * x[j];
                }
                if (short1 > broken) {
                    broken = short1;
                    worst = i;
                }
            }
            if (worst < 0 || !exchange(a, worst)) {
                return;
            }
        }
    }

    /** Takes the condition in; false if that moves nothing, which rounding alone can bring about. */
    private boolean exchange(double[][] a, int incoming) {
        int m = cost.length;
        double[] row = new double[m];
        conditions.row(incoming, row);
        double[][] transposed = new double[m][m];
        for (int j = 0; j < m; j++) {
            for (int k = 0; k < m; k++) {
                transposed[j][k] = a[k][j];
            }
        }
        double[] weight = solve(transposed, cost);
        double[] share = solve(transposed, row);
        int out = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int k = 0; k < m; k++) {
            if (share[k] > 1e-12 && weight[k] / share[k] < least) {
                least = weight[k] / share[k];
                out = k;
            }
        }
        if (out < 0 || Arrays.stream(basis).anyMatch(b -> b == incoming)) {
            return false;
        }
        basis[out] = incoming;
        return true;
    }

    /** Gaussian elimination with pivots; a few unknowns. */
    static double[] solve(double[][] matrix, double[] right) {
        int m = right.length;
        double[][] a = new double[m][];
        double[] b = right.clone();
        for (int k = 0; k < m; k++) {
            a[k] = matrix[k].clone();
        }
        for (int j = 0; j < m; j++) {
            int pivot = j;
            for (int k = j + 1; k < m; k++) {
                pivot = Math.abs(a[k][j]) > Math.abs(a[pivot][j]) ? k : pivot;
            }
            double[] swap = a[j];
            a[j] = a[pivot];
            a[pivot] = swap;
            double value = b[j];
            b[j] = b[pivot];
            b[pivot] = value;
            for (int k = j + 1; k < m; k++) {
                double factor = a[k][j] / a[j][j];
                for (int l = j; l < m; l++) {
                    a[k][l] -= factor * a[j][l];
                }
                b[k] -= factor * b[j];
            }
        }
        for (int j = m - 1; j >= 0; j--) {
            for (int l = j + 1; l < m; l++) {
                b[j] -= a[j][l] * b[l];
            }
            b[j] /= a[j][j];
        }
        return b;
    }
}
