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

    // Of one cell.
    private double g1;
    private double gB;
    private double gS;
    private double gF;
    private double h11;
    private double h1B;
    private double h1S;
    private double h1F;
    private double hBB;
    private double hBS;
    private double hBF;
    private double hSS;
    private double hSF;
    private double hFF;

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
                sum(readings, motion.first(cell), motion.first(cell + 1));
                flush(cell);
            }
            if (motion.isInnermost(cell)) {
                endKnots(cell);
            }
        }
    }

    /** Sums up one cell; beside each other in local variables, which stay in registers. */
    private void sum(Readings readings, int from, int to) {
        double score1 = 0;
        double scoreB = 0;
        double scoreS = 0;
        double scoreF = 0;
        double sum11 = 0;
        double sum1B = 0;
        double sum1S = 0;
        double sum1F = 0;
        double sumBB = 0;
        double sumBS = 0;
        double sumBF = 0;
        double sumSS = 0;
        double sumSF = 0;
        double sumFF = 0;
        for (int i = from; i < to; i++) {
            double score = readings.score[i];
            double information = readings.information[i];
            double b = readings.byBend[i];
            double s = readings.byDistance[i];
            double f = s * motion.within(i);
            double weightedB = information * b;
            double weightedS = information * s;
            double weightedF = information * f;
            score1 += score;
            scoreB += score * b;
            scoreS += score * s;
            scoreF += score * f;
            sum11 += information;
            sum1B += weightedB;
            sum1S += weightedS;
            sum1F += weightedF;
            sumBB += weightedB * b;
            sumBS += weightedB * s;
            sumBF += weightedB * f;
            sumSS += weightedS * s;
            sumSF += weightedS * f;
            sumFF += weightedF * f;
        }
        g1 = score1;
        gB = scoreB;
        gS = scoreS;
        gF = scoreF;
        h11 = sum11;
        h1B = sum1B;
        h1S = sum1S;
        h1F = sum1F;
        hBB = sumBB;
        hBS = sumBS;
        hBF = sumBF;
        hSS = sumSS;
        hSF = sumSF;
        hFF = sumFF;
    }

    /** Ends a cell. */
    private void flush(int cell) {
        gradient[0] += g1;
        gradient[1] += gB;
        hessian[0][0] += h11;
        hessian[1][0] += h1B;
        hessian[1][1] += hBB;
        between.score += gS;
        between.crest += h1S;
        between.bend += hBS;
        between.distance += hSS;
        double x = motion.near(cell);
        double y = motion.nearWay(cell);
        double z = motion.far(cell);
        double w = motion.farWay(cell);
        add(near, x, y);
        add(far, z, w);
        nearNear += x * (x * hSS + 2 * y * hSF) + y * y * hFF;
        nearFar += x * (z * hSS + w * hSF) + y * (z * hSF + w * hFF);
        farFar += z * (z * hSS + 2 * w * hSF) + w * w * hFF;
    }

    private void add(Row row, double x, double y) {
        row.score += x * gS + y * gF;
        row.crest += x * h1S + y * h1F;
        row.bend += x * hBS + y * hBF;
        row.distance += x * hSS + y * hSF;
    }

    private void endKnots(int cell) {
        boolean after = cell >= motion.middle();
        int k = motion.nearKnot(cell);
        int l = motion.farKnot(cell);
        double passed = motion.passed(k, after);
        near.add(passed, beyond);
        put(near, PassLikelihood.SPEED + k);
        put(far, PassLikelihood.SPEED + l);
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
            put(beyond, PassLikelihood.P0);
            beyond.clear();
        }
    }

    private void put(Row row, int at) {
        gradient[at] += row.score;
        hessian[at][0] += row.crest;
        hessian[at][1] += row.bend;
        hessian[at][PassLikelihood.P0] += row.distance;
    }

    private void add(int knot, int other, double sum) {
        hessian[PassLikelihood.SPEED + Math.max(knot, other)][PassLikelihood.SPEED + Math.min(knot, other)] += sum;
    }
}
