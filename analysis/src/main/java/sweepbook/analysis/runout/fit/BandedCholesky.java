package sweepbook.analysis.runout.fit;

/**
 * Cholesky factors L D L' of a symmetric positive definite matrix whose entries vanish more than three places off the
 * diagonal: two unknowns a knot, each knot tied to its neighbour.
 */
final class BandedCholesky {
    static final int BAND = 3;

    private final double[] d;
    /** l[k][j] is L(j + k, j) for k = 1..BAND; l[0] is not used. */
    private final double[][] l;

    /** @param band band[k][j] is the entry (j + k, j); overwritten */
    BandedCholesky(double[][] band) {
        int n = band[0].length;
        d = band[0];
        l = band;
        for (int j = 0; j < n; j++) {
            if (!(d[j] > 0)) {
                throw new IllegalArgumentException("not positive definite at " + j + ": " + d[j]);
            }
            int reach = Math.min(BAND, n - 1 - j);
            for (int a = 1; a <= reach; a++) {
                double factor = band[a][j] / d[j];
                for (int b = a; b <= reach; b++) {
                    band[b - a][j + a] -= factor * band[b][j];
                }
            }
            for (int a = 1; a <= reach; a++) {
                band[a][j] /= d[j];
            }
        }
    }

    /** L^-1 times rows of a given width, in place. */
    void forward(double[] rows, int width) {
        int n = d.length;
        for (int j = 0; j < n; j++) {
            for (int a = 1; a <= BAND && j + a < n; a++) {
                subtract(rows, (j + a) * width, l[a][j], j * width, width);
            }
        }
    }

    private static void subtract(double[] rows, int from, double factor, int row, int width) {
        for (int k = 0; k < width; k++) {
            rows[from + k] -= factor * rows[row + k];
        }
    }

    /** The rest of the solution for what has gone forward, in place. */
    void back(double[] x) {
        int n = d.length;
        for (int j = n - 1; j >= 0; j--) {
            x[j] /= d[j];
            for (int a = 1; a <= BAND && j + a < n; a++) {
                x[j] -= l[a][j] * x[j + a];
            }
        }
    }

    /** What a row that has gone forward weighs: the entry of D. */
    double pivot(int j) {
        return d[j];
    }

    double logDeterminant() {
        double sum = 0;
        for (double pivot : d) {
            sum += Math.log(pivot);
        }
        return sum;
    }

    /** The band of the inverse, by Takahashi's recursion: inverse[k][j] is its entry (j + k, j). */
    double[][] inverseBand() {
        int n = d.length;
        double[][] inverse = new double[BAND + 1][n];
        for (int j = n - 1; j >= 0; j--) {
            int reach = Math.min(BAND, n - 1 - j);
            for (int a = reach; a >= 0; a--) {
                double sum = a == 0 ? 1 / d[j] : 0;
                for (int b = 1; b <= reach; b++) {
                    int low = j + Math.min(a, b);
                    sum -= l[b][j] * inverse[Math.abs(a - b)][low];
                }
                inverse[a][j] = sum;
            }
        }
        return inverse;
    }
}
