package sweepbook.analysis.sweep;

/**
 * What the readings of a pass add to gradient and Hessian, cell by cell of their {@link HandMotion} from outside towards the middle.
 * The derivatives of a reading's model by the crest, the bend and the distance in the middle are 1, b and s; that by a knot
 * is s (x + f y), with x and y the same for all readings of the cell and f the reading's place in it. So sums of products of 1, b, s
 * and s f say all of a cell. But for its two knots, those that move it have been passed altogether: y is 0, and x the same for all
 * cells farther out, whose sums are told by one number. So the cost of a reading does not grow with the knots, nor that of a cell.
 */
final class CellSums {
    private final HandMotion motion;
    private final double[] gradient;
    private final double[][] hessian;

    // Of one cell: beside s, and beside s f.
    private final Row byS = new Row();
    private final Row byF = new Row();

    private final Row between = new Row();
    private final Row near = new Row();
    private final Row far = new Row();
    private double nearNear;
    private double nearFar;
    private double farFar;

    /** Of all cells farther out than those between the two knots. */
    private final Row beyond = new Row();

    /** What each reading says of its model, and how that changes with bend and distance. */
    static final class Readings {
        /** Derivative of the log likelihood by the model, and its curvature, turned positive. */
        final double[] score;

        final double[] information;
        /** Derivatives of the model. */
        final double[] byBend;

        final double[] byDistance;

        Readings(int size) {
            score = new double[size];
            information = new double[size];
            byBend = new double[size];
            byDistance = new double[size];
        }
    }

    /** Sums of one derivative: beside the score, and beside those by crest, bend and distance. */
    private static final class Row {
        double score;
        double crest;
        double bend;
        double distance;

        void set(double byScore, double byCrest, double byBend, double byDistance) {
            score = byScore;
            crest = byCrest;
            bend = byBend;
            distance = byDistance;
        }

        void add(double factor, Row other) {
            score += factor * other.score;
            crest += factor * other.crest;
            bend += factor * other.bend;
            distance += factor * other.distance;
        }

        void clear() {
            score = crest = bend = distance = 0;
        }
    }

    /** The lower triangle of the Hessian is filled. */
    CellSums(HandMotion motion, double[] gradient, double[][] hessian) {
        this.motion = motion;
        this.gradient = gradient;
        this.hessian = hessian;
    }

    /** Adds all readings of the motion. */
    void add(Readings readings) {
        for (int turn = 0; turn < motion.cells(); turn++) {
            int cell = motion.inwards(turn);
            if (motion.first(cell) < motion.first(cell + 1)) {
                add(readings, cell);
            }
            if (motion.isInnermost(cell)) {
                endKnots(cell);
            }
        }
    }

    /** Adds the readings of one cell; local variables stay in registers. */
    private void add(Readings readings, int cell) {
        double g1 = 0;
        double gB = 0;
        double gS = 0;
        double gF = 0;
        double h11 = 0;
        double h1B = 0;
        double h1S = 0;
        double h1F = 0;
        double hBB = 0;
        double hBS = 0;
        double hBF = 0;
        double hSS = 0;
        double hSF = 0;
        double hFF = 0;
        for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
            double score = readings.score[i];
            double information = readings.information[i];
            double b = readings.byBend[i];
            double s = readings.byDistance[i];
            double f = s * motion.within(i);
            double weightedB = information * b;
            double weightedS = information * s;
            double weightedF = information * f;
            g1 += score;
            gB += score * b;
            gS += score * s;
            gF += score * f;
            h11 += information;
            h1B += weightedB;
            h1S += weightedS;
            h1F += weightedF;
            hBB += weightedB * b;
            hBS += weightedB * s;
            hBF += weightedB * f;
            hSS += weightedS * s;
            hSF += weightedS * f;
            hFF += weightedF * f;
        }
        gradient[0] += g1;
        gradient[1] += gB;
        hessian[0][0] += h11;
        hessian[1][0] += h1B;
        hessian[1][1] += hBB;
        byS.set(gS, h1S, hBS, hSS);
        byF.set(gF, h1F, hBF, hSF);
        double x = motion.near(cell);
        double y = motion.nearWay(cell);
        double z = motion.far(cell);
        double w = motion.farWay(cell);
        between.add(1, byS);
        near.add(x, byS);
        near.add(y, byF);
        far.add(z, byS);
        far.add(w, byF);
        nearNear += x * (x * hSS + 2 * y * hSF) + y * y * hFF;
        nearFar += x * (z * hSS + w * hSF) + y * (z * hSF + w * hFF);
        farFar += z * (z * hSS + 2 * w * hSF) + w * w * hFF;
    }

    private void endKnots(int cell) {
        boolean after = cell >= motion.middle();
        int k = motion.nearKnot(cell);
        int l = motion.farKnot(cell);
        double passed = motion.passed(k, after);
        near.add(passed, beyond);
        int place = motion.place(after);
        put(near, PassLikelihood.SPEED + k, place);
        put(far, PassLikelihood.SPEED + l, place);
        add(k, k, nearNear + passed * passed * beyond.distance);
        add(k, l, nearFar);
        add(l, l, farFar);
        int first = motion.firstPassed(after);
        int end = after ? k : first + 1;
        for (int j = after ? first : k + 1; j < end; j++) {
            double x = motion.passed(j, after);
            add(j, k, x * near.distance);
            add(j, l, x * far.distance);
        }
        beyond.add(1, between);
        between.clear();
        near.clear();
        far.clear();
        nearNear = nearFar = farFar = 0;
        if (k == first) {
            put(beyond, place, place);
            beyond.clear();
        }
    }

    private void put(Row row, int at, int place) {
        gradient[at] += row.score;
        hessian[at][0] += row.crest;
        hessian[at][1] += row.bend;
        hessian[Math.max(at, place)][Math.min(at, place)] += row.distance;
    }

    private void add(int knot, int other, double sum) {
        hessian[PassLikelihood.SPEED + Math.max(knot, other)][PassLikelihood.SPEED + Math.min(knot, other)] += sum;
    }
}
