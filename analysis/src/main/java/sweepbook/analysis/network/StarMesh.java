package sweepbook.analysis.network;

import java.util.Arrays;

/**
 * Sparse elimination of a network of weighted differences, point by point: removing a point joins all its neighbours by
 * the weights that replace it, as a star of resistors is replaced by a mesh. The factors are those of the normal
 * equations (Cholesky), but every step adds and multiplies positive numbers only, so that weights of very different
 * size lose no digits.
 *
 * <p>The point with the fewest neighbours goes first (minimum degree). Variances are computed on the pattern of the
 * factors alone, as Takahashi, Fagan and Chin (1973) do for the inverse, so that cost follows the fill, not the square
 * of the number of points. Parallel edges add up; {@link #GROUND} stands for whatever does not move.
 */
final class StarMesh {
    static final int GROUND = -1;

    private final int[] stepOf; // point to elimination step
    private final int[][] later; // step to the steps, ascending, of the neighbours it was removed from
    private final double[][] share; // weight towards each of these over the sum of all weights
    private final double[] total; // sum of all weights at its removal, ground included
    private final double[] groundShare; // the same towards ground
    private double[][] between; // variance of the difference to each later neighbour, once asked for
    private double[] toGround; // variance of the place itself

    /** Every point must be tied to ground, over however many edges. */
    StarMesh(int points, int[] from, int[] to, double[] weight) {
        Elimination order = new Elimination(Elimination.neighbours(points, from, to));
        stepOf = order.stepOf();
        later = order.laterNeighbours();
        share = new double[points][];
        total = new double[points];
        groundShare = new double[points];
        eliminate(from, to, weight);
    }

    private void eliminate(int[] from, int[] to, double[] weight) {
        int points = stepOf.length;
        double[] groundWeight = new double[points];
        for (int k = 0; k < points; k++) {
            share[k] = new double[later[k].length];
        }
        for (int e = 0; e < from.length; e++) {
            if (from[e] == GROUND || to[e] == GROUND) {
                int point = Math.max(from[e], to[e]);
                if (point != GROUND) {
                    groundWeight[stepOf[point]] += weight[e];
                }
            } else {
                int first = Math.min(stepOf[from[e]], stepOf[to[e]]);
                int second = Math.max(stepOf[from[e]], stepOf[to[e]]);
                share[first][Arrays.binarySearch(later[first], second)] += weight[e];
            }
        }
        for (int k = 0; k < points; k++) {
            int[] mesh = later[k];
            double[] star = share[k]; // still weights
            double sum = groundWeight[k];
            for (double w : star) {
                sum += w;
            }
            total[k] = sum;
            groundShare[k] = groundWeight[k] / sum;
            for (int i = 0; i < mesh.length; i++) {
                int column = mesh[i];
                groundWeight[column] += star[i] * groundShare[k];
                spread(star, mesh, i, star[i] / sum, later[column], share[column]);
            }
            for (int i = 0; i < mesh.length; i++) {
                star[i] /= sum;
            }
        }
    }

    /** Adds factor times the star's weights beyond i to the column of its i-th neighbour; both lists ascend. */
    private static void spread(double[] star, int[] mesh, int i, double factor, int[] rows, double[] weights) {
        int at = 0;
        for (int m = i + 1; m < mesh.length; m++) {
            while (rows[at] != mesh[m]) {
                at++;
            }
            weights[at++] += factor * star[m];
        }
    }

    /** The places that answer a load on every point. */
    double[] solve(double[] load) {
        int points = stepOf.length;
        double[] x = new double[points];
        for (int point = 0; point < points; point++) {
            x[stepOf[point]] = load[point];
        }
        for (int k = 0; k < points; k++) {
            for (int i = 0; i < later[k].length; i++) {
                x[later[k][i]] += share[k][i] * x[k];
            }
        }
        for (int k = points - 1; k >= 0; k--) {
            x[k] /= total[k];
            for (int i = 0; i < later[k].length; i++) {
                x[k] += share[k][i] * x[later[k][i]];
            }
        }
        double[] place = new double[points];
        for (int point = 0; point < points; point++) {
            place[point] = x[stepOf[point]];
        }
        return place;
    }

    /** Variance of the difference of two points that an edge joins, in units of one over weight; either may be ground. */
    double varianceOfEdge(int a, int b) {
        findVariances();
        if (a == b) {
            return 0;
        }
        if (a == GROUND || b == GROUND) {
            return toGround[stepOf[Math.max(a, b)]];
        }
        int first = Math.min(stepOf[a], stepOf[b]);
        int second = Math.max(stepOf[a], stepOf[b]);
        return between[first][Arrays.binarySearch(later[first], second)];
    }

    /**
     * Backwards: a point is the mean of its star, weighed by its shares s, with a variance of its own. So its difference
     * from point b has the variance own + sum(s_i V_ib) - sum(s_i s_m V_im) / 2, V being variances of differences.
     */
    private void findVariances() {
        if (between != null) {
            return;
        }
        int points = stepOf.length;
        between = new double[points][];
        toGround = new double[points];
        for (int k = points - 1; k >= 0; k--) {
            int[] mesh = later[k];
            double[] star = share[k];
            double[] fromMean = new double[mesh.length];
            double groundFromMean = 0;
            for (int i = 0; i < mesh.length; i++) {
                int column = mesh[i];
                double own = groundShare[k] * toGround[column];
                groundFromMean += star[i] * toGround[column];
                int[] rows = later[column];
                double[] known = between[column];
                int at = 0;
                for (int m = i + 1; m < mesh.length; m++) {
                    while (rows[at] != mesh[m]) {
                        at++;
                    }
                    own += star[m] * known[at];
                    fromMean[m] += star[i] * known[at++];
                }
                fromMean[i] += own;
            }
            double spread = groundShare[k] * groundFromMean / 2;
            for (int i = 0; i < mesh.length; i++) {
                spread += star[i] * fromMean[i] / 2;
            }
            for (int i = 0; i < mesh.length; i++) {
                fromMean[i] += 1 / total[k] - spread;
            }
            between[k] = fromMean;
            toGround[k] = 1 / total[k] + groundFromMean - spread;
        }
    }
}
