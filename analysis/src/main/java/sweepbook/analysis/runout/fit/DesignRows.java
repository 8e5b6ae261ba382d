package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/**
 * Some rows of a fit's design at a time, and what the readings there say: arrays that are filled again for the next rows, by
 * one thread. Filling, weighing and summing are passes of their own over them: in one loop they would take a new JVM longer
 * to compile than to run. A design of a million readings would not fit a library's matrix.
 *
 * @param p coefficients in a row
 * @param x the rows, one after the other
 * @param slope of the profile at each, in mm per rad
 * @param information of each reading
 * @param score slope of each reading's log likelihood
 */
record DesignRows(int p, double[] x, double[] slope, double[] information, double[] score) {
    /** Rows are gone through by so many at once. */
    static final int TOGETHER = 4;

    private static final int MOST = 64 * TOGETHER;

    DesignRows(int p) {
        this(p, new double[MOST * p], new double[MOST], new double[MOST], new double[MOST]);
    }

    /** How many it holds. */
    int most() {
        return MOST;
    }

    /** Lets the rows after so many say nothing. */
    void silence(int count) {
        Arrays.fill(information, count, MOST, 0);
        Arrays.fill(score, count, MOST, 0);
    }

    /** Readings less what the coefficients make of the rows, for so many readings from one on. */
    void residuals(double[] reading_mm, double[] beta, int from, int count, double[] residual_mm) {
        for (int r = 0; r < count; r++) {
            double sum = 0;
            for (int j = 0; j < p; j++) {
                sum += x[r * p + j] * beta[j];
            }
            residual_mm[from + r] = reading_mm[from + r] - sum;
        }
    }
}
