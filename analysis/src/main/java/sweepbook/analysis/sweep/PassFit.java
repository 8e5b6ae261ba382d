package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * The crest of one pass. Hands from even to very uneven are tried, and the fits are averaged by their evidence (Laplace's
 * approximation): an even pass is a straight motion, and an uneven one pays only for what it needs.
 */
final class PassFit {
    private static final double ROUGH = 0.03;
    /** A start that goes backwards is no pass; the ascent may still find one. */
    private static final double SLOWEST = 1e-9;

    /** Fewest readings of which a crest can be told. */
    static final int FEWEST = 3;

    private final PassReadings readings;
    private final PassLikelihood likelihood;
    private final CrestMoments moments;
    private final double logEvidence;
    private final double crest_s;
    private double[] even;
    private final double[] share;
    private double squares_mm2;
    private double weight;

    /** The fit, or empty where the readings tell no crest. */
    static Optional<PassFit> of(PassReadings readings, Rounding rounding, PassLikelihood.Bend known, double[] prior) {
        PassFit fit = new PassFit(readings, rounding, known, prior);
        return fit.moments != null ? Optional.of(fit) : Optional.empty();
    }

    /**
     * @param prior how probable each hand of the grid is beforehand; one that is impossible is not tried
     */
    private PassFit(PassReadings readings, Rounding rounding, PassLikelihood.Bend known, double[] prior) {
        this.readings = readings;
        likelihood = new PassLikelihood(readings, rounding, known);
        double[] logShare = new double[Hand.GRID.size()];
        Arrays.fill(logShare, Double.NEGATIVE_INFINITY);
        List<CrestMoments> each = new ArrayList<>();
        // A rough fit first, under noise so great that no reading is given up as a spike for the sake of a poor start.
        double rough_mm = ROUGH * readings.fall_mm() + FastMath.sqrt(rounding.variance_mm2());
        double[] line = start(known.mean());
        double logSpeed = line[PassLikelihood.SPEED];
        double[] from = new PassLikelihood(readings, new Rounding(rough_mm, 0), known)
                .maximise(withKnots(line, Hand.USUAL.knots()), Hand.USUAL, logSpeed)
                .p;
        PassLikelihood.Point best = null;
        int bestAt = 0;
        for (int g = logShare.length - 1; g >= 0; g--) {
            if (prior[g] == 0) {
                continue;
            }
            Hand hand = Hand.GRID.get(g);
            PassLikelihood.Point fit = likelihood.maximise(withKnots(from, hand.knots()), hand, logSpeed);
            from = fit.p;
            even = fit.p;
            Cholesky factor = Cholesky.of(fit.hessian, fit.p.length);
            if (factor == null) {
                continue;
            }
            logShare[g] = fit.value + FastMath.log(prior[g]) + 0.5 * (hand.logDeterminant() - factor.logDeterminant());
            double[] ofCrest = factor.inverseColumn(0);
            each.add(0, new CrestMoments(fit.p[0], fit.p[1], ofCrest[0], ofCrest[1], factor.inverseColumn(1)[1]));
            if (best == null || logShare[g] > logShare[bestAt]) {
                bestAt = g;
                best = fit;
            }
        }
        if (best == null) {
            moments = null;
            share = logShare;
            logEvidence = crest_s = 0;
            return;
        }
        double top = logShare[bestAt];
        logEvidence = readings.logPrior()
                + top
                + FastMath.log(
                        Arrays.stream(logShare).map(s -> FastMath.exp(s - top)).sum());
        double[] tried = Arrays.stream(logShare).filter(Double::isFinite).toArray();
        moments = CrestMoments.mixed(each, CrestMoments.shares(tried));
        share = CrestMoments.shares(logShare);
        crest_s = readings.time_s(crossing(best.p));
        residuals(best.p, rounding);
        weight = Math.max(1, weight - parameters(best, Hand.GRID.get(bestAt)));
    }

    /** The best of several explanations of the same readings, with the crest that all of them tell by their evidence. */
    private PassFit(PassFit best, CrestMoments moments) {
        this.moments = moments;
        readings = best.readings;
        likelihood = best.likelihood;
        logEvidence = best.logEvidence;
        crest_s = best.crest_s;
        even = best.even;
        share = best.share;
        squares_mm2 = best.squares_mm2;
        weight = best.weight;
    }

    /** This fit as the best of several explanations of the same readings. */
    PassFit orElse(List<PassFit> others) {
        List<PassFit> all = new ArrayList<>(others);
        all.add(this);
        double[] share =
                CrestMoments.shares(all.stream().mapToDouble(f -> f.logEvidence).toArray());
        return new PassFit(
                this, CrestMoments.mixed(all.stream().map(f -> f.moments).toList(), share));
    }

    /** Readings above the model, of the most probable hand. */
    private void residuals(double[] p, Rounding rounding) {
        double[] size = new double[readings.size()];
        double[] off = likelihood.residuals_mm(p);
        for (int i = 0; i < size.length; i++) {
            size[i] = Math.abs(off[i]);
        }
        Arrays.sort(size);
        // Spikes that the noise assumed so far lets pass are not noise: 1.4826 medians are one sigma, four hold the
        // rest.
        double far = 4 * 1.4826 * size[size.length / 2] + FastMath.sqrt(rounding.variance_mm2()) / 2;
        for (int i = 0; i < readings.size(); i++) {
            double r = off[i];
            double w = Math.abs(r) > far ? 0 : likelihood.belongs(r);
            squares_mm2 += w * r * r;
            weight += w;
        }
    }

    /** Parameters that the readings rather than the prior determine. */
    private static double parameters(PassLikelihood.Point fit, Hand hand) {
        double count = fit.p.length - 1;
        Cholesky factor = Cholesky.of(fit.hessian, fit.p.length);
        for (int k = 0; k < hand.knots(); k++) {
            double[] column = factor.inverseColumn(PassLikelihood.SPEED + k);
            for (int j = 0; j < hand.knots(); j++) {
                count -= hand.precision(k, j) * column[PassLikelihood.SPEED + j];
            }
        }
        return count;
    }

    /** The same parameters with their mean speed at so many knots; as they are where they have as many. */
    private static double[] withKnots(double[] p, int knots) {
        int own = p.length - PassLikelihood.SPEED;
        if (own == knots) {
            return p;
        }
        double mean = Arrays.stream(p, PassLikelihood.SPEED, p.length).sum() / own;
        double[] all = Arrays.copyOf(p, PassLikelihood.SPEED + knots);
        Arrays.fill(all, PassLikelihood.SPEED, all.length, mean);
        return all;
    }

    /** Parameters of the fit that takes the motion for even. */
    double[] even() {
        return even;
    }

    /** Log of the probability of the readings, comparable between fits of the same readings under the same noise. */
    double logEvidence() {
        return logEvidence;
    }

    PassReadings readings() {
        return readings;
    }

    /** The crest where nothing more is known of the contact's curvature. */
    double crest_mm() {
        return moments.crest_mm();
    }

    double stdU_mm() {
        return FastMath.sqrt(moments.crestVariance_mm2());
    }

    double crest_s() {
        return crest_s;
    }

    double bend() {
        return moments.bend();
    }

    double bendVariance() {
        return moments.bendVariance();
    }

    /** By how much the crest changes with the curvature that is assumed. */
    double crestByBend() {
        return moments.covariance() / moments.bendVariance();
    }

    /** Variance of the crest where the curvature is known. */
    double crestVarianceAtBend_mm2() {
        double variance = moments.crestVariance_mm2();
        return Math.max(variance - moments.covariance() * crestByBend(), 1e-4 * variance);
    }

    /** How probable a hand of the grid is after the fit. */
    double share(int hand) {
        return share[hand];
    }

    /** Sum of squared residuals, each by the probability that it is no spike. */
    double squares_mm2() {
        return squares_mm2;
    }

    /** Degrees of freedom of that sum. */
    double weight() {
        return weight;
    }

    /** A straight line through the signed roots of the drop below the top. */
    private double[] start(double startBend) {
        double[] t = readings.time;
        double n = t.length;
        double st = 0;
        double stt = 0;
        double su = 0;
        double stu = 0;
        for (int i = 0; i < t.length; i++) {
            double u = Math.signum(t[i] - readings.topTime)
                    * FastMath.sqrt(Math.max(0, readings.topLine_mm - readings.line_mm[i]));
            st += t[i];
            stt += t[i] * t[i];
            su += u;
            stu += t[i] * u;
        }
        double slope = (n * stu - st * su) / (n * stt - st * st);
        return new double[] {
            readings.topLine_mm, startBend, (su - slope * st) / n, FastMath.log(Math.max(slope, SLOWEST))
        };
    }

    /** Root of P next to the rough top. */
    private double crossing(double[] p) {
        double best = readings.topTime;
        double distance = Double.POSITIVE_INFINITY;
        double[] u = likelihood.distances(p);
        double a = u[0];
        for (int i = 1; i < readings.size(); i++) {
            double b = u[i];
            if (a * b <= 0 && a != b) {
                double at = readings.time[i - 1] + (readings.time[i] - readings.time[i - 1]) * a / (a - b);
                if (Math.abs(at - readings.topTime) < distance) {
                    distance = Math.abs(at - readings.topTime);
                    best = at;
                }
            }
            a = b;
        }
        return best;
    }
}
