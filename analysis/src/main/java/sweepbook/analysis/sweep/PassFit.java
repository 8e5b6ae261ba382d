package sweepbook.analysis.sweep;

import java.util.Arrays;
import org.hipparchus.util.FastMath;

/**
 * The crest of one pass by maximum likelihood: readings r = h - P(t)^2 with h the crest's reading, P(t) the distance from
 * the crest over sqrt(2 R), a polynomial of time whose root is the crossing. Degree one is an even hand; the higher
 * degrees carry a normal prior whose width, the hand's unevenness rho, is tried on a grid and averaged over by its
 * evidence (Laplace's approximation). So an even pass is a parabola, and an uneven one pays only for what it needs.
 *
 * <p>A reading may be a spike: its likelihood is mixed with a flat one over the range of the pass.
 */
final class PassFit {
    /** Speed varies by about so much, as a part of itself, over the pass; zero is an even hand. */
    static final double[] UNEVENNESS = {0, 0.03, 0.1, 0.3, 0.8, 2};

    private static final int HIGHEST_DEGREE = 9;
    private static final double SPIKE_SHARE = 0.03;
    private static final int MOST_ROUNDS = 40;

    final double crest_mm;
    final double stdU_mm;
    final double crest_s;
    /** Sum of squared residuals over weights, and the weights, for the noise of all passes together. */
    final double residualSquares_mm2;

    final double weight;
    final double logEvidence;
    final double[] evidence;
    final double lagOne;
    final int from;
    final int to;

    private final double[] y;
    private final double[] t;
    private final double[][] basis;
    private final boolean[] spike;
    private final Rounding rounding;
    private final double logFlat;
    private final int n;

    /** Fits readings from (inclusive) to (exclusive) of a trace, about a rough crest. */
    PassFit(CleanTrace trace, int from, int to, int top, Rounding rounding, double[] prior) {
        this.from = from;
        this.to = to;
        this.rounding = rounding;
        n = to - from;
        y = Arrays.copyOfRange(trace.pressed_mm(), from, to);
        spike = Arrays.copyOfRange(trace.spike(), from, to);
        double[] line = Arrays.copyOfRange(trace.line_mm(), from, to);
        double t0 = trace.time_s()[from];
        double t1 = trace.time_s()[to - 1];
        double middle = (t0 + t1) / 2;
        double half = Math.max((t1 - t0) / 2, 1e-9);
        t = new double[n];
        for (int i = 0; i < n; i++) {
            t[i] = (trace.time_s()[from + i] - middle) / half;
        }
        int highest = Math.max(1, Math.min(HIGHEST_DEGREE, (n - 2) / 3));
        basis = legendre(t, highest);
        double lowest = Double.POSITIVE_INFINITY;
        double topLine = line[top - from];
        for (double v : line) {
            lowest = Math.min(lowest, v);
        }
        double range = 2 * Math.max(topLine - lowest, 8 * Math.sqrt(rounding.variance_mm2()));
        logFlat = FastMath.log(SPIKE_SHARE / (1 - SPIKE_SHARE) / range);

        double[] start = start(line, t[top - from], topLine);
        double[] even = maximise(Arrays.copyOf(start, 3), 1, 0, start[2]);
        double slope = Math.abs(even[2]);
        evidence = new double[UNEVENNESS.length];
        double[] crests = new double[UNEVENNESS.length];
        double[] variances = new double[UNEVENNESS.length];
        double[][] fits = new double[UNEVENNESS.length][];
        double[] p = even;
        for (int g = 0; g < UNEVENNESS.length; g++) {
            evidence[g] = Double.NEGATIVE_INFINITY;
            int degree = g == 0 ? 1 : highest;
            if (g > 0 && highest == 1) {
                break;
            }
            p = maximise(Arrays.copyOf(p, degree + 2), degree, UNEVENNESS[g], slope);
            double[][] h = new double[degree + 2][degree + 2];
            double value = system(p, degree, UNEVENNESS[g], slope, new double[degree + 2], h);
            Cholesky factor = Cholesky.of(h, degree + 2);
            if (factor == null) {
                continue;
            }
            double logPrior = 0;
            for (int k = 2; k <= degree; k++) {
                logPrior -= FastMath.log(spread(UNEVENNESS[g], slope, k));
            }
            evidence[g] = value + logPrior - 0.5 * factor.logDeterminant() + FastMath.log(prior[g]);
            crests[g] = p[0];
            variances[g] = factor.firstVariance();
            fits[g] = p;
        }
        int best = 0;
        for (int g = 1; g < evidence.length; g++) {
            if (evidence[g] > evidence[best]) {
                best = g;
            }
        }
        double sum = 0;
        double mean = 0;
        for (int g = 0; g < evidence.length; g++) {
            double w = FastMath.exp(evidence[g] - evidence[best]);
            sum += w;
            mean += w * crests[g];
        }
        mean /= sum;
        double variance = 0;
        for (int g = 0; g < evidence.length; g++) {
            double w = FastMath.exp(evidence[g] - evidence[best]) / sum;
            variance += w * (variances[g] + (crests[g] - mean) * (crests[g] - mean));
        }
        logEvidence = evidence[best] + FastMath.log(sum);
        for (int g = 0; g < evidence.length; g++) {
            evidence[g] = FastMath.exp(evidence[g] - logEvidence);
        }
        crest_mm = mean;
        double[] fit = fits[best] == null ? even : fits[best];
        double squares = 0;
        double weights = 0;
        double products = 0;
        double before = 0;
        for (int i = 0; i < n; i++) {
            double u = distance(fit, fit.length - 2, i);
            double r = y[i] - (fit[0] - u * u);
            double w = spike[i] ? 0 : belongs(r);
            squares += w * r * r;
            weights += w;
            products += Math.sqrt(w) * r * before;
            before = Math.sqrt(w) * r;
        }
        residualSquares_mm2 = squares;
        weight = Math.max(1e-9, weights - 3);
        lagOne = squares > 0 ? products / squares : 0;
        stdU_mm = Math.sqrt(variance);
        crest_s = middle + half * crossing(fit, t[top - from]);
    }

    /** The straight line through the signed roots of the drop below the top. */
    private double[] start(double[] line, double topTime, double top) {
        double h = top;
        double s1 = 0;
        double st = 0;
        double stt = 0;
        double su = 0;
        double stu = 0;
        for (int i = 0; i < n; i++) {
            double u = Math.signum(t[i] - topTime) * Math.sqrt(Math.max(0, h - line[i]));
            s1++;
            st += t[i];
            stt += t[i] * t[i];
            su += u;
            stu += t[i] * u;
        }
        double det = s1 * stt - st * st;
        double slope = (s1 * stu - st * su) / det;
        return new double[] {h, (su - slope * st) / s1, slope};
    }

    private double[] maximise(double[] start, int degree, double rho, double slope) {
        int size = degree + 2;
        double[] p = start;
        double[] gradient = new double[size];
        double[][] hessian = new double[size][size];
        double value = system(p, degree, rho, slope, gradient, hessian);
        double damping = 1e-3;
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double[][] damped = new double[size][];
            for (int i = 0; i < size; i++) {
                damped[i] = hessian[i].clone();
                damped[i][i] += damping * hessian[i][i] + 1e-12;
            }
            Cholesky factor = Cholesky.of(damped, size);
            if (factor == null) {
                damping = Math.max(1e-3, damping * 10);
                if (damping > 1e9) {
                    break;
                }
                continue;
            }
            double[] step = factor.solve(gradient);
            double[] next = p.clone();
            for (int i = 0; i < size; i++) {
                next[i] += step[i];
            }
            double[] nextGradient = new double[size];
            double[][] nextHessian = new double[size][size];
            double nextValue = system(next, degree, rho, slope, nextGradient, nextHessian);
            if (nextValue >= value) {
                boolean done = nextValue - value < 1e-7;
                p = next;
                value = nextValue;
                gradient = nextGradient;
                hessian = nextHessian;
                damping = Math.max(damping / 10, 1e-9);
                if (done) {
                    break;
                }
            } else {
                damping = Math.max(1e-6, damping * 10);
                if (damping > 1e9) {
                    break;
                }
            }
        }
        return p;
    }

    /** Log likelihood with prior; gradient and negative Hessian (Gauss-Newton) come back in the arrays. */
    private double system(double[] p, int degree, double rho, double slope, double[] gradient, double[][] hessian) {
        int size = degree + 2;
        double value = 0;
        double[] d = new double[size];
        d[0] = 1;
        for (int i = 0; i < n; i++) {
            if (spike[i]) {
                continue;
            }
            double u = distance(p, degree, i);
            double r = y[i] - (p[0] - u * u);
            double log = rounding.log(r);
            double belongs = 1 / (1 + FastMath.exp(logFlat - log));
            value += log > logFlat + 30 ? log : logFlat + FastMath.log1p(FastMath.exp(log - logFlat));
            if (belongs < 1e-6) {
                continue;
            }
            for (int k = 0; k <= degree; k++) {
                d[k + 1] = -2 * u * basis[k][i];
            }
            double score = belongs * rounding.score(r);
            double information = belongs * rounding.information(r);
            for (int a = 0; a < size; a++) {
                gradient[a] += score * d[a];
                double ia = information * d[a];
                for (int b = 0; b <= a; b++) {
                    hessian[a][b] += ia * d[b];
                }
            }
        }
        for (int k = 2; k <= degree; k++) {
            double s = spread(rho, slope, k);
            value -= p[k + 1] * p[k + 1] / (2 * s * s);
            gradient[k + 1] -= p[k + 1] / (s * s);
            hessian[k + 1][k + 1] += 1 / (s * s);
        }
        for (int a = 0; a < size; a++) {
            for (int b = 0; b < a; b++) {
                hessian[b][a] = hessian[a][b];
            }
        }
        return value;
    }

    private double belongs(double r) {
        return 1 / (1 + FastMath.exp(logFlat - rounding.log(r)));
    }

    private double distance(double[] p, int degree, int i) {
        double u = 0;
        for (int k = 0; k <= degree; k++) {
            u += p[k + 1] * basis[k][i];
        }
        return u;
    }

    /** Root of P next to the rough top, by the secant between readings. */
    private double crossing(double[] p, double near) {
        double best = near;
        double distance = Double.POSITIVE_INFINITY;
        for (int i = 1; i < n; i++) {
            double a = distance(p, p.length - 2, i - 1);
            double b = distance(p, p.length - 2, i);
            if (a * b <= 0 && a != b) {
                double at = t[i - 1] + (t[i] - t[i - 1]) * a / (a - b);
                if (Math.abs(at - near) < distance) {
                    distance = Math.abs(at - near);
                    best = at;
                }
            }
        }
        return best;
    }

    private static double spread(double rho, double slope, int degree) {
        return rho * slope / (degree * degree);
    }

    private static double[][] legendre(double[] t, int degree) {
        double[][] basis = new double[degree + 1][t.length];
        for (int i = 0; i < t.length; i++) {
            basis[0][i] = 1;
            basis[1][i] = t[i];
            for (int k = 2; k <= degree; k++) {
                basis[k][i] = ((2 * k - 1) * t[i] * basis[k - 1][i] - (k - 1) * basis[k - 2][i]) / k;
            }
        }
        return basis;
    }
}
