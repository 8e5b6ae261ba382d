package sweepbook.analysis.runout.fit;

import sweepbook.analysis.runout.angle.Turning;

/**
 * The unknown angles of a turning: at each knot angle and speed, held together by a speed that wanders (white angular
 * acceleration of spectral density kappa, so the most likely motion between anchors is a cubic spline), and by the
 * anchors. Holds the precision of that knowledge and the state.
 */
final class AngleWander {
    final double[] state;
    final double[][] prior;
    private final Turning start;
    private final Anchors anchors;
    private final double kappa;
    private final double firstSpeed;
    private final int[] anchorInterval;
    private final double[][] anchorBasis;

    AngleWander(Turning start, Anchors anchors, double kappa) {
        this.start = start;
        this.anchors = anchors;
        this.kappa = kappa;
        anchorInterval = new int[anchors.size()];
        anchorBasis = new double[anchors.size()][];
        int knots = start.knots();
        state = new double[2 * knots];
        prior = new double[BandedCholesky.BAND + 1][2 * knots];
        for (int k = 0; k < knots; k++) {
            state[2 * k] = start.knotAngle_rad(k);
            state[2 * k + 1] = start.knotSpeed_rad_per_s(k);
        }
        for (int k = 0; k + 1 < knots; k++) {
            double h = start.knot_s(k + 1) - start.knot_s(k);
            double a = 12 / (kappa * h * h * h);
            double b = 6 / (kappa * h * h);
            double c = 4 / (kappa * h);
            // The jump e = (angle1 - angle0 - h speed0, speed1 - speed0) costs e' [a -b; -b c] e, here multiplied out.
            int i = 2 * k;
            prior[0][i] += a;
            prior[1][i] += a * h - b;
            prior[2][i] -= a;
            prior[3][i] += b;
            prior[0][i + 1] += a * h * h - 2 * b * h + c;
            prior[1][i + 1] += b - a * h;
            prior[2][i + 1] += b * h - c;
            prior[0][i + 2] += a;
            prior[1][i + 2] -= b;
            prior[0][i + 3] += c;
        }
        // Nothing but the start tells the speed until the profile has a slope: it is known to its own size.
        firstSpeed = start.knotSpeed_rad_per_s(0);
        prior[0][1] += 1 / (firstSpeed * firstSpeed);
        for (int m = 0; m < anchors.size(); m++) {
            anchorInterval[m] = start.interval(anchors.time_s()[m], m == 0 ? 0 : anchorInterval[m - 1]);
            anchorBasis[m] = basis(anchors.time_s()[m], anchorInterval[m]);
            addOuter(prior, 2 * anchorInterval[m], anchorBasis[m], 1 / (anchors.stdU_rad()[m] * anchors.stdU_rad()[m]));
        }
    }

    int knots() {
        return start.knots();
    }

    int interval(double time_s, int hint) {
        return start.interval(time_s, hint);
    }

    /** How the angle at a time depends on angle and speed at the two knots about it. */
    double[] basis(double time_s, int k) {
        double h = start.knot_s(k + 1) - start.knot_s(k);
        double u = (time_s - start.knot_s(k)) / h;
        double v = 1 - u;
        return new double[] {v * v * (1 + 2 * u), v * v * u * h, u * u * (1 + 2 * v), -u * u * v * h};
    }

    static void addOuter(double[][] band, int row, double[] basis, double weight) {
        for (int a = 0; a < 4; a++) {
            for (int b = 0; a + b < 4; b++) {
                band[b][row + a] += weight * basis[a] * basis[a + b];
            }
        }
    }

    double angle_rad(int k, double[] basis) {
        int i = 2 * k;
        return basis[0] * state[i] + basis[1] * state[i + 1] + basis[2] * state[i + 2] + basis[3] * state[i + 3];
    }

    /**
     * Adds the pull of the knowledge to the right hand side, which stands in one column of rows of a given width, and gives
     * what the present state costs.
     */
    double pull(double[] rows, int column, int width) {
        double[] rhs = new double[state.length];
        double cost = pull(rhs);
        for (int q = 0; q < rhs.length; q++) {
            rows[q * width + column] += rhs[q];
        }
        return cost;
    }

    private double pull(double[] rhs) {
        double miss1 = (firstSpeed - state[1]) / firstSpeed;
        double cost = miss1 * miss1;
        rhs[1] += miss1 / firstSpeed;
        for (int k = 0; k + 1 < knots(); k++) {
            double h = start.knot_s(k + 1) - start.knot_s(k);
            int i = 2 * k;
            double jump = state[i + 2] - state[i] - h * state[i + 1];
            double change = state[i + 3] - state[i + 1];
            double onJump = (12 / (h * h * h) * jump - 6 / (h * h) * change) / kappa;
            double onChange = (-6 / (h * h) * jump + 4 / h * change) / kappa;
            cost += jump * onJump + change * onChange;
            rhs[i] += onJump;
            rhs[i + 1] += h * onJump + onChange;
            rhs[i + 2] -= onJump;
            rhs[i + 3] -= onChange;
        }
        for (int m = 0; m < anchors.size(); m++) {
            double weight = 1 / (anchors.stdU_rad()[m] * anchors.stdU_rad()[m]);
            int k = anchorInterval[m];
            double[] basis = anchorBasis[m];
            double miss = anchors.angle_rad()[m] - angle_rad(k, basis);
            cost += weight * miss * miss;
            for (int a = 0; a < 4; a++) {
                rhs[2 * k + a] += weight * miss * basis[a];
            }
        }
        return cost;
    }

    /** Goes a step, cut so that no angle moves further than the most; gives how far one was to move, in radians. */
    double move(double[] change, double most_rad) {
        double farthest = 0;
        for (int q = 0; q < change.length; q += 2) {
            farthest = Math.max(farthest, Math.abs(change[q]));
        }
        double cut = Math.min(1, most_rad / farthest);
        for (int q = 0; q < change.length; q++) {
            state[q] += cut * change[q];
        }
        return farthest;
    }

    /** Anchor less fitted angle, in radians. */
    double[] anchorMisses_rad() {
        double[] misses = new double[anchors.size()];
        Turning now = turning();
        for (int m = 0; m < misses.length; m++) {
            misses[m] = anchors.angle_rad()[m] - now.angle_rad(anchors.time_s()[m]);
        }
        return misses;
    }

    /** Log determinant of the precision of the wander and of the anchors. */
    double logPrecision() {
        double sum = 0;
        for (double u : anchors.stdU_rad()) {
            sum -= 2 * Math.log(u);
        }
        for (int k = 0; k + 1 < knots(); k++) {
            sum += Math.log(12) - 2 * Math.log(kappa) - 4 * Math.log(start.knot_s(k + 1) - start.knot_s(k));
        }
        return sum;
    }

    Turning turning() {
        int knots = knots();
        double[] at = new double[knots];
        double[] angle = new double[knots];
        double[] speed = new double[knots];
        for (int k = 0; k < knots; k++) {
            at[k] = start.knot_s(k);
            angle[k] = state[2 * k];
            speed[k] = state[2 * k + 1];
        }
        return new Turning(at, angle, speed);
    }
}
