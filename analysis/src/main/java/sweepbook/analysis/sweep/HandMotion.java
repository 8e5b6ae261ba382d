package sweepbook.analysis.sweep;

/**
 * How a hand moves through a pass: P(t) = P0 + integral of exp(w), so that it never turns back, with the logarithm w of its speed
 * linear between even knots. Time runs from -1 to 1, P0 is the distance at time 0.
 *
 * <p>The parameters are P0 and w at the knots. The integral is summed from the middle outwards in cells, a few between two knots,
 * within which the speed counts as even: a reading is moved by the knots between the middle and itself, no others.
 */
final class HandMotion {
    /** Cells between two knots. */
    private static final int STEPS = 4;
    /** A logarithm of speed that no hand reaches; it keeps a wild step of the ascent from overflowing. */
    private static final double FASTEST = 50;

    private final int knots;
    private final int cells;
    private final int[] first;
    private final double[] within;
    private final double[] edge;
    private final double[][] byKnot;

    /**
     * @param time of the readings, never descending
     */
    HandMotion(double[] time, int knots) {
        this.knots = knots;
        cells = STEPS * Math.max(1, knots - 1);
        first = new int[cells + 1];
        within = new double[time.length];
        int cell = 0;
        for (int i = 0; i < time.length; i++) {
            double x = (time[i] + 1) / 2 * cells;
            while (cell < cells - 1 && x >= cell + 1) {
                first[++cell] = i;
            }
            within[i] = x - cell;
        }
        while (cell < cells) {
            first[++cell] = time.length;
        }
        edge = new double[cells + 1];
        byKnot = new double[cells + 1][knots];
    }

    /** Puts the motion to parameters that begin at an offset. */
    void set(double[] p, int at) {
        int half = cells / 2;
        edge[half] = p[at];
        for (int c = half; c < cells; c++) {
            step(c, c, c + 1, p, at + 1);
        }
        for (int c = half - 1; c >= 0; c--) {
            step(c, c + 1, c, p, at + 1);
        }
    }

    /** Across a cell from the edge nearer to the middle to the other. */
    private void step(int cell, int from, int to, double[] p, int at) {
        int k = knot(cell);
        double share = knots == 1 ? 0 : (cell + 0.5) / STEPS - k;
        double w = knots == 1 ? p[at] : p[at + k] * (1 - share) + p[at + k + 1] * share;
        double way = (to - from) * Math.exp(Math.min(w, FASTEST)) * 2.0 / cells;
        edge[to] = edge[from] + way;
        for (int j = 0; j < knots; j++) {
            byKnot[to][j] = byKnot[from][j];
        }
        byKnot[to][k] += way * (1 - share);
        if (knots > 1) {
            byKnot[to][k + 1] += way * share;
        }
    }

    /** The knot before a cell. */
    private int knot(int cell) {
        return cell / STEPS;
    }

    int cells() {
        return cells;
    }

    /** The first reading of a cell, or of those after it where it has none; the number of readings after the last cell. */
    int first(int cell) {
        return first[cell];
    }

    /** Where in its cell a reading lies, from 0 to 1. */
    double within(int reading) {
        return within[reading];
    }

    /** P at a reading of a cell. */
    double distance(int cell, int reading) {
        return edge[cell] + within[reading] * (edge[cell + 1] - edge[cell]);
    }

    /** The first of the knots that move the readings of a cell. */
    int firstKnot(int cell) {
        return Math.min(knot(cell), knot(cells / 2));
    }

    /** The last of them. */
    int lastKnot(int cell) {
        return Math.min(knots - 1, Math.max(knot(cell), knot(cells / 2)) + 1);
    }

    /** The derivative of P by the logarithm of speed at a knot, at the edge before a cell. */
    double byKnot(int cell, int knot) {
        return byKnot[cell][knot];
    }
}
