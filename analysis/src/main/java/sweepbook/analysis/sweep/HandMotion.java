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
    /** P where each cell begins. */
    private final double[] begin;

    private final double[] way;

    // By cell: derivatives by the two knots about it.
    private final double[] near;
    private final double[] far;
    private final double[] nearWay;
    private final double[] farWay;
    // By knot.
    private final double[] passedBefore;
    private final double[] passedAfter;

    private int placeBefore;
    private int placeAfter;

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
        begin = new double[cells];
        way = new double[cells];
        near = new double[cells];
        far = new double[cells];
        nearWay = new double[cells];
        farWay = new double[cells];
        passedBefore = new double[knots];
        passedAfter = new double[knots];
    }

    /**
     * Puts the motion to parameters.
     *
     * @param before where P0 stands among them, as seen from before the middle; the logarithms of speed follow it
     * @param after where the same stands as seen from after the middle: another, where it is not known how long the hand stood there
     */
    void set(double[] p, int before, int after) {
        placeBefore = before;
        placeAfter = after;
        ways(p, before + 1);
        walk(+1, p[after], passedAfter);
        walk(-1, p[before], passedBefore);
    }

    /** The speed grows by the same factor from each cell between two knots to the next. */
    private void ways(double[] p, int at) {
        for (int c = 0; c < cells; c += STEPS) {
            double w = Math.min(p[at + c / STEPS], FASTEST);
            double wander = knots == 1 ? 0 : Math.min(p[at + c / STEPS + 1], FASTEST) - w;
            double grows = Math.exp(wander / STEPS);
            way[c] = Math.exp(w + wander / STEPS / 2) * 2 / cells;
            for (int i = c + 1; i < c + STEPS; i++) {
                way[i] = way[i - 1] * grows;
            }
        }
    }

    /** From the middle outwards, cell by cell. */
    private void walk(int direction, double place, double[] passed) {
        int first = direction > 0 ? middle() : middle() - 1;
        double at = place;
        double byNear = 0;
        double byFar = 0;
        for (int c = first; c >= 0 && c < cells; c += direction) {
            if (c != first && nearKnot(c) != nearKnot(c - direction)) {
                passed[nearKnot(c - direction)] = byNear;
                byNear = byFar;
                byFar = 0;
            }
            double share = (c % STEPS + 0.5) / STEPS;
            // An even speed has but a near knot.
            double nearShare = knots == 1 ? 1 : direction > 0 ? 1 - share : share;
            nearWay[c] = way[c] * nearShare;
            farWay[c] = way[c] * (1 - nearShare);
            if (direction > 0) {
                near[c] = byNear;
                far[c] = byFar;
                begin[c] = at;
            } else {
                near[c] = byNear - nearWay[c];
                far[c] = byFar - farWay[c];
                begin[c] = at - way[c];
            }
            at += direction * way[c];
            byNear += direction * nearWay[c];
            byFar += direction * farWay[c];
        }
    }

    /** The first cell after the middle. */
    int middle() {
        return cells / 2;
    }

    int cells() {
        return cells;
    }

    /** The cells in turn from outside towards the middle, those before it first. */
    int inwards(int turn) {
        return turn < middle() ? turn : cells - 1 - (turn - middle());
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
        return begin[cell] + within[reading] * way[cell];
    }

    /**
     * Of the two knots about a cell the one nearer to the middle. Those nearer still have been passed altogether and move all of
     * the cell's readings alike; those beyond the two move none.
     */
    int nearKnot(int cell) {
        return Math.min(knots - 1, cell / STEPS + (cell < middle() ? 1 : 0));
    }

    /** The other of the two; the same where there is but one. */
    int farKnot(int cell) {
        return Math.min(knots - 1, cell / STEPS + (cell < middle() ? 0 : 1));
    }

    /** Whether a cell is the last of those between its two knots, seen from outside towards the middle. */
    boolean isInnermost(int cell) {
        return cell == middle() || cell == middle() - 1 || cell % STEPS == (cell < middle() ? STEPS - 1 : 0);
    }

    /** The derivative of P by the logarithm of speed at the near knot, at the beginning of a cell. */
    double near(int cell) {
        return near[cell];
    }

    /** By how much it grows through the cell. */
    double nearWay(int cell) {
        return nearWay[cell];
    }

    /** The derivative by that at the far knot. */
    double far(int cell) {
        return far[cell];
    }

    double farWay(int cell) {
        return farWay[cell];
    }

    /** The derivative by that at a knot which has been passed altogether, for all readings after the middle or before it. */
    double passed(int knot, boolean after) {
        return after ? passedAfter[knot] : passedBefore[knot];
    }

    /** How fast the hand moves in the middle. */
    double speed() {
        return way[middle()] * cells / 2;
    }

    /** Where the parameter stands that all readings after the middle, or before it, are moved by. */
    int place(boolean after) {
        return after ? placeAfter : placeBefore;
    }

    /** The first knot that is passed on the way outwards. */
    int firstPassed(boolean after) {
        return nearKnot(after ? middle() : middle() - 1);
    }
}
