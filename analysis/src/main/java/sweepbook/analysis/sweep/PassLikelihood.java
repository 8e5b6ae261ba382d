package sweepbook.analysis.sweep;

import java.util.Arrays;
import org.hipparchus.util.FastMath;

/**
 * The likelihood of a pass' readings. The parameters are the crest h, the curvature g of the contact, and the coefficients of
 * the polynomial P(t) in Legendre's basis, the distance from the crest over sqrt(2 Re): readings are h - z with
 * z - g z^2 = P^2 and g = 1 / (2 Re), which is the exact drop Re - sqrt(Re^2 - s^2) of a ball on a round.
 *
 * <p>The coefficients from degree two on carry a normal prior whose width is the hand's unevenness; a reading may be a
 * spike, so its likelihood is mixed with a flat one over the range of the pass.
 */
final class PassLikelihood {
    /** Where the coefficients of P begin among the parameters. */
    static final int P0 = 2;

    private static final double SPIKE_SHARE = 0.03;
    private static final int MOST_ROUNDS = 40;
    private static final double DONE = 1e-3;
    /** The contact cannot be past its equator: beyond this share of it the drop goes on as a straight line. */
    private static final double STEEPEST = 0.95;

    private final PassReadings readings;
    private final Rounding rounding;
    private final double[][] basis;
    private final double logFlat;
    private final Bend bend;
    private final double crestSpread_mm;

    /** What is known of the contact's curvature g, per mm: mean and standard deviation. */
    record Bend(double mean, double spread) {
        /** A ball contact on a round of 2 to 60 mm radius altogether. */
        static final Bend UNKNOWN = new Bend(0.06, 0.06);
    }

    PassLikelihood(PassReadings readings, Rounding rounding, Bend bend, int highestDegree) {
        this.readings = readings;
        this.rounding = rounding;
        this.bend = bend;
        basis = legendre(readings.time, highestDegree);
        // The crest cannot lie far above the line's top; this only keeps a fit from running away.
        crestSpread_mm = 0.1 * readings.fall_mm() + 6 * FastMath.sqrt(rounding.variance_mm2());
        double range = 2 * Math.max(readings.fall_mm(), 8 * FastMath.sqrt(rounding.variance_mm2()));
        logFlat = FastMath.log(SPIKE_SHARE / (1 - SPIKE_SHARE) / range);
    }

    /** A point of the parameters with the log posterior there, its gradient and its negative Hessian (Gauss-Newton). */
    static final class Point {
        final double[] p;
        final double[] gradient;
        final double[][] hessian;
        double value;

        Point(double[] p) {
            this.p = p;
            gradient = new double[p.length];
            hessian = new double[p.length][p.length];
        }

        int degree() {
            return p.length - P0 - 1;
        }
    }

    /** Width of the prior of a coefficient: a speed that wanders gives distances that fall off with the degree squared. */
    static double spread(double unevenness, double slope, int degree) {
        return unevenness * slope / (degree * degree);
    }

    /** Levenberg and Marquardt's ascent to the greatest posterior. */
    Point maximise(double[] start, double unevenness, double slope) {
        Point at = evaluate(start, unevenness, slope);
        double damping = 1e-4;
        for (int round = 0; round < MOST_ROUNDS && damping < 1e8; round++) {
            int size = at.p.length;
            double[][] damped = new double[size][];
            for (int i = 0; i < size; i++) {
                damped[i] = at.hessian[i].clone();
                damped[i][i] += damping * at.hessian[i][i] + 1e-12;
            }
            Cholesky factor = Cholesky.of(damped, size);
            if (factor == null) {
                damping = Math.max(1e-3, damping * 10);
                continue;
            }
            double[] next = factor.solve(at.gradient);
            for (int i = 0; i < size; i++) {
                next[i] += at.p[i];
            }
            Point there = evaluate(next, unevenness, slope);
            if (there.value >= at.value) {
                boolean done = there.value - at.value < DONE;
                at = there;
                damping = Math.max(damping / 10, 1e-9);
                if (done) {
                    break;
                }
            } else {
                damping = Math.max(1e-5, damping * 10);
            }
        }
        return at;
    }

    private Point evaluate(double[] p, double unevenness, double slope) {
        Point point = new Point(p);
        int degree = point.degree();
        int size = p.length;
        double[] d = new double[size];
        d[0] = 1;
        double value = 0;
        for (int i = 0; i < readings.size(); i++) {
            double u = distance(p, i);
            double g = p[1];
            double square = u * u;
            double root = FastMath.sqrt(Math.max(1 - STEEPEST, 1 - 4 * g * square));
            double z = 2 * square / (1 + root);
            double r = readings.pressed_mm[i] - p[0] + z;
            double log = rounding.log(r);
            double beyond = log - logFlat;
            value += beyond > 30 ? log : logFlat + FastMath.log1p(FastMath.exp(beyond));
            if (beyond < -14) {
                continue;
            }
            double belongs = beyond > 30 ? 1 : 1 / (1 + FastMath.exp(-beyond));
            d[1] = -z * z / root;
            double slopeAt = -2 * u / root;
            for (int k = 0; k <= degree; k++) {
                d[P0 + k] = slopeAt * basis[k][i];
            }
            double score = belongs * rounding.score(r);
            double information = belongs * rounding.information(r);
            for (int a = 0; a < size; a++) {
                point.gradient[a] += score * d[a];
                double weighted = information * d[a];
                double[] row = point.hessian[a];
                for (int b = 0; b <= a; b++) {
                    row[b] += weighted * d[b];
                }
            }
        }
        value += prior(point, 0, readings.topLine_mm, crestSpread_mm);
        value += prior(point, 1, bend.mean(), bend.spread());
        for (int k = 2; k <= degree; k++) {
            value += prior(point, P0 + k, 0, spread(unevenness, slope, k));
        }
        for (int a = 0; a < size; a++) {
            for (int b = 0; b < a; b++) {
                point.hessian[b][a] = point.hessian[a][b];
            }
        }
        point.value = value;
        return point;
    }

    private static double prior(Point point, int at, double mean, double spread) {
        double off = (point.p[at] - mean) / spread;
        point.gradient[at] -= off / spread;
        point.hessian[at][at] += 1 / (spread * spread);
        return -off * off / 2;
    }

    /** P at a reading. */
    double distance(double[] p, int i) {
        double u = 0;
        for (int k = p.length - P0 - 1; k >= 0; k--) {
            u += p[P0 + k] * basis[k][i];
        }
        return u;
    }

    /** The reading above the model. */
    double residual_mm(double[] p, int i) {
        double u = distance(p, i);
        double root = FastMath.sqrt(Math.max(1 - STEEPEST, 1 - 4 * p[1] * u * u));
        return readings.pressed_mm[i] - p[0] + 2 * u * u / (1 + root);
    }

    /** Probability that a reading with this residual is no spike. */
    double belongs(double residual_mm) {
        return 1 / (1 + FastMath.exp(logFlat - rounding.log(residual_mm)));
    }

    private static double[][] legendre(double[] t, int degree) {
        double[][] basis = new double[degree + 1][t.length];
        Arrays.fill(basis[0], 1);
        if (degree > 0) {
            basis[1] = t;
        }
        for (int k = 2; k <= degree; k++) {
            for (int i = 0; i < t.length; i++) {
                basis[k][i] = ((2 * k - 1) * t[i] * basis[k - 1][i] - (k - 1) * basis[k - 2][i]) / k;
            }
        }
        return basis;
    }
}
