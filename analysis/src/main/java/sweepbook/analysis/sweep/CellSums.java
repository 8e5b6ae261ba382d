package sweepbook.analysis.sweep;

/**
 * What the readings of one cell of a {@link HandMotion} add to gradient and Hessian. The derivatives of a reading's model by the
 * crest, the bend and the distance in the middle are 1, b and s; that by a knot is s (x + f y), with x and y the same for all
 * readings of the cell and f the reading's place in it. So sums of products of 1, b, s and s f say all, and the cost of a
 * reading does not grow with the knots.
 */
final class CellSums {
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

    /**
     * @param score derivative of the log likelihood by the model
     * @param information its curvature, turned positive
     * @param b derivative of the model by the bend
     * @param s derivative of the model by the distance
     * @param within place of the reading in the cell
     */
    void add(double score, double information, double b, double s, double within) {
        double f = s * within;
        g1 += score;
        gB += score * b;
        gS += score * s;
        gF += score * f;
        h11 += information;
        h1B += information * b;
        h1S += information * s;
        h1F += information * f;
        double weighted = information * s;
        hBB += information * b * b;
        hBS += weighted * b;
        hBF += information * b * f;
        hSS += weighted * s;
        hSF += weighted * f;
        hFF += information * f * f;
    }

    /** Adds the sums to gradient and lower triangle of the Hessian, and begins anew. */
    void flush(HandMotion motion, int cell, double[] gradient, double[][] hessian) {
        gradient[0] += g1;
        gradient[1] += gB;
        gradient[2] += gS;
        hessian[0][0] += h11;
        hessian[1][0] += h1B;
        hessian[1][1] += hBB;
        hessian[2][0] += h1S;
        hessian[2][1] += hBS;
        hessian[2][2] += hSS;
        int from = motion.firstKnot(cell);
        int to = motion.lastKnot(cell);
        for (int k = from; k <= to; k++) {
            double x = motion.byKnot(cell, k);
            double y = motion.byKnot(cell + 1, k) - x;
            int at = PassLikelihood.SPEED + k;
            double[] row = hessian[at];
            gradient[at] += x * gS + y * gF;
            row[0] += x * h1S + y * h1F;
            row[1] += x * hBS + y * hBF;
            double byS = x * hSS + y * hSF;
            double byF = x * hSF + y * hFF;
            row[2] += byS;
            for (int j = from; j <= k; j++) {
                double other = motion.byKnot(cell, j);
                row[PassLikelihood.SPEED + j] += byS * other + byF * (motion.byKnot(cell + 1, j) - other);
            }
        }
        g1 = gB = gS = gF = 0;
        h11 = h1B = h1S = h1F = hBB = hBS = hBF = hSS = hSF = hFF = 0;
    }
}
