package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;
import org.hipparchus.util.KthSelector;

/** The crest of one pass, and how the readings scatter about the most probable motion. */
final class PassFit {
    /** Fewest readings of which a crest can be told. */
    static final int FEWEST = 3;

    private final HandFits hands;
    private final CrestMoments moments;
    private final double logEvidence;
    private final double crest_s;
    private final double[] share;
    private final Residuals residuals;

    /**
     * @param squares_mm2 sum of squared residuals, each by the probability that it is no spike
     * @param weight degrees of freedom of that sum
     * @param belonging share of the readings that are no spikes
     */
    private record Residuals(double squares_mm2, double weight, double belonging) {}

    /**
     * The fit, or empty where the readings tell no crest.
     *
     * @param prior how probable each hand of the grid is beforehand; one that is impossible is not tried
     */
    static Optional<PassFit> of(PassReadings readings, Rounding rounding, PassLikelihood.Bend known, double[] prior) {
        return HandFits.of(readings, rounding, known, prior).map(hands -> new PassFit(hands, rounding));
    }

    /** The same readings under another noise and other beliefs in the hands, beginning where this fit ended. */
    Optional<PassFit> again(Rounding rounding, PassLikelihood.Bend known, double[] prior) {
        return hands.again(rounding, known, prior).map(again -> new PassFit(again, rounding));
    }

    private PassFit(HandFits hands, Rounding rounding) {
        this.hands = hands;
        moments = hands.moments();
        logEvidence = hands.logEvidence();
        share = hands.shares();
        crest_s = readings().time_s(crossing(hands.best()));
        residuals = residuals(rounding);
    }

    /** The best of several explanations of the same readings, with the crest that all of them tell by their evidence. */
    private PassFit(PassFit best, CrestMoments moments) {
        this.moments = moments;
        hands = best.hands;
        logEvidence = best.logEvidence;
        crest_s = best.crest_s;
        share = best.share;
        residuals = best.residuals;
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

    /** The same fit where more is known of the crest. */
    PassFit with(CrestMoments moments) {
        return new PassFit(this, moments);
    }

    /** Readings above the model, of the most probable hand. */
    private Residuals residuals(Rounding rounding) {
        double[] off = hands.likelihood().residuals_mm(hands.best());
        double[] size = Arrays.stream(off).map(Math::abs).toArray();
        double median_mm = new KthSelector().select(size, null, size.length / 2);
        // Spikes that the noise assumed so far lets pass are not noise: 1.4826 medians are one sigma, four hold the
        // rest.
        double far = 4 * 1.4826 * median_mm + FastMath.sqrt(rounding.variance_mm2()) / 2;
        double squares_mm2 = 0;
        double weight = 0;
        double belonging = 0;
        for (double r : off) {
            double belongs = hands.likelihood().belongs(r);
            double w = Math.abs(r) > far ? 0 : belongs;
            belonging += belongs / off.length;
            squares_mm2 += w * r * r;
            weight += w;
        }
        return new Residuals(squares_mm2, Math.max(1, weight - hands.parameters()), belonging);
    }

    /** Share of the readings that are no spikes beside the most probable motion. */
    double belonging() {
        return residuals.belonging;
    }

    /** The most probable parameters of the most probable hand. */
    double[] best() {
        return hands.best();
    }

    /** Log of the probability of the readings, comparable between fits of the same readings under the same noise. */
    double logEvidence() {
        return logEvidence;
    }

    PassReadings readings() {
        return hands.readings();
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
        return residuals.squares_mm2;
    }

    /** Variance about the motion that one reading of the trace shows. */
    double perReading_mm2() {
        return readings().perReading() * squares_mm2() / weight();
    }

    /** Degrees of freedom of that sum. */
    double weight() {
        return residuals.weight;
    }

    /** Root of P next to the rough top. */
    private double crossing(double[] p) {
        PassReadings readings = readings();
        double best = readings.topTime;
        double distance = Double.POSITIVE_INFINITY;
        double[] u = hands.likelihood().distances(p);
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
