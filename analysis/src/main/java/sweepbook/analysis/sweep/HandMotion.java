package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * How a hand moves through a pass: P(t) = P0 + integral of exp(w), so that it never turns back, with the logarithm w of its speed
 * linear between even knots. Time runs from -1 to 1, P0 is the distance at time 0.
 *
 * <p>The parameters are P0 and w at the knots.
 */
final class HandMotion {
    /** Steps of the integral between two knots. */
    private static final int STEPS = 4;
    /** A logarithm of speed that no hand reaches; it keeps a wild step of the ascent from overflowing. */
    private static final double FASTEST = 50;

    private final int knots;
    private final int cells;
    private final int[] cell;
    private final double[] within;
    private final double[] edge;
    private final double[][] byKnot;
    private double[] middleByKnot;
    private double middle;

    HandMotion(double[] time, int knots) {
        this.knots = knots;
        cells = STEPS * Math.max(1, knots - 1);
        cell = new int[time.length];
        within = new double[time.length];
        for (int i = 0; i < time.length; i++) {
            double x = (time[i] + 1) / 2 * cells;
            cell[i] = Math.max(0, Math.min(cells - 1, (int) x));
            within[i] = x - cell[i];
        }
        edge = new double[cells + 1];
        byKnot = new double[cells + 1][knots];
        middleByKnot = byKnot[0];
    }

    /** Puts the motion to parameters that begin at an offset. */
    void set(double[] p, int at) {
        double dt = 2.0 / cells;
        for (int c = 0; c < cells; c++) {
            double x = (c + 0.5) / cells * (knots - 1);
            int k = Math.min((int) x, Math.max(0, knots - 2));
            double f = x - k;
            double w = knots == 1 ? p[at + 1] : p[at + 1 + k] * (1 - f) + p[at + 2 + k] * f;
            double way = FastMath.exp(Math.min(w, FASTEST)) * dt;
            edge[c + 1] = edge[c] + way;
            for (int j = 0; j < knots; j++) {
                byKnot[c + 1][j] = byKnot[c][j];
            }
            if (knots == 1) {
                byKnot[c + 1][0] += way;
            } else {
                byKnot[c + 1][k] += way * (1 - f);
                byKnot[c + 1][k + 1] += way * f;
            }
        }
        int half = cells / 2;
        middle = p[at] - edge[half];
        middleByKnot = byKnot[half];
    }

    /** P at a reading. */
    double distance(int i) {
        int c = cell[i];
        return middle + edge[c] + within[i] * (edge[c + 1] - edge[c]);
    }

    /** Its derivatives by the logarithms of speed, times a factor, into an array from a place on. */
    void byKnots(int i, double factor, double[] d, int at) {
        double[] a = byKnot[cell[i]];
        double[] b = byKnot[cell[i] + 1];
        double f = within[i];
        for (int j = 0; j < knots; j++) {
            d[at + j] = factor * (a[j] + f * (b[j] - a[j]) - middleByKnot[j]);
        }
    }
}
