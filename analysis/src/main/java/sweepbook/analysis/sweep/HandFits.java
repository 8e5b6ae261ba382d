package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * One pass fitted by hands from even to very uneven, to be averaged by their evidence (Laplace's approximation): an even pass is
 * a straight motion, and an uneven one pays only for what it needs.
 */
final class HandFits {
    /** In log probability below the best hand: beyond what counts in a mean. */
    private static final double HOPELESS = 10;
    /** So far below, a calmer hand does not come back. */
    private static final double FAR_TOO_CALM = 40;

    private final PassReadings readings;
    private final PassLikelihood likelihood;
    private final double logSpeed;
    private final Fit[] fits = new Fit[Hand.GRID.size()];
    private Fit best;

    /**
     * A pass fitted by one hand.
     *
     * @param p the most probable parameters
     * @param factor of the inverse of their covariance
     * @param value log posterior there, or more where the ascent was given up
     * @param logShare log of how probable the hand is
     */
    private record Fit(Hand hand, double[] p, Cholesky factor, double value, double logShare) {
        CrestMoments moments() {
            return CrestMoments.of(p[0], p[1], factor);
        }

        /** Parameters that the readings rather than the prior determine. */
        double parameters() {
            return p.length - 1 - factor.inverseBeside(hand.root(), PassLikelihood.SPEED);
        }
    }

    private HandFits(PassReadings readings, PassLikelihood likelihood, double logSpeed) {
        this.readings = readings;
        this.likelihood = likelihood;
        this.logSpeed = logSpeed;
    }

    /**
     * The fits, or empty where the readings tell no crest.
     *
     * @param prior how probable each hand of the grid is beforehand; one that is impossible is not tried
     */
    static Optional<HandFits> of(PassReadings readings, Rounding rounding, PassLikelihood.Bend known, double[] prior) {
        RoughMotion rough = new RoughMotion(readings, FastMath.sqrt(rounding.variance_mm2()), known);
        HandFits fits = new HandFits(readings, new PassLikelihood(readings, rounding, known), rough.logSpeed());
        PassLikelihood.Point even = fits.likelihood.at(rough.even());
        if (Arrays.stream(prior, 1, prior.length).allMatch(p -> p == 0)) {
            fits.fit(0, even, prior[0]);
            return fits.found();
        }
        List<PassLikelihood.Point> looked = fits.fitCalmer(fits.likelihood.at(rough.uneven()), prior);
        double[] calm = fits.likeliest(looked, Hand.CALM).p;
        PassLikelihood.Point mean = fits.likelihood.at(RoughMotion.withKnots(calm, Hand.CALM.knots(), Hand.EVEN));
        fits.fitWilder(fits.fit(0, mean.value > even.value ? mean : even, prior[0]).p, prior);
        return fits.found();
    }

    /** From the wildest hand to the calmest that changes its speed; returns where the readings were looked at. */
    private List<PassLikelihood.Point> fitCalmer(PassLikelihood.Point start, double[] prior) {
        List<PassLikelihood.Point> looked = new ArrayList<>(List.of(start));
        for (int g = prior.length - 1; g > 0; g--) {
            Hand hand = Hand.GRID.get(g);
            if (prior[g] > 0 && !isHopeless(hand)) {
                looked.add(fit(g, likeliest(looked, hand), prior[g]));
            }
        }
        return looked;
    }

    /** Back from the even hand to the wildest, where the motion of a calmer one is the better beginning. */
    private void fitWilder(double[] even, double[] prior) {
        List<PassLikelihood.Point> looked = new ArrayList<>();
        looked.add(likelihood.at(RoughMotion.withKnots(even, Hand.EVEN.knots(), Hand.CALM)));
        for (int g = 1; g < prior.length; g++) {
            Hand hand = Hand.GRID.get(g);
            PassLikelihood.Point start = likeliest(looked, hand);
            if (prior[g] > 0 && (fits[g] == null || start.value(hand, logSpeed) > fits[g].value)) {
                looked.add(fit(g, start, prior[g]));
            }
        }
    }

    /** The point that a hand which may change its speed finds likeliest. */
    private PassLikelihood.Point likeliest(List<PassLikelihood.Point> looked, Hand hand) {
        PassLikelihood.Point likeliest = null;
        double most = Double.NEGATIVE_INFINITY;
        for (PassLikelihood.Point point : looked) {
            double value = point.value(hand, logSpeed);
            if (likeliest == null || value > most) {
                most = value;
                likeliest = point;
            }
        }
        return likeliest;
    }

    /** The same readings under another noise and other beliefs in the hands; those that were hopeless stay so. */
    Optional<HandFits> again(Rounding rounding, PassLikelihood.Bend known, double[] prior) {
        HandFits again = new HandFits(readings, likelihood.under(rounding, known), logSpeed);
        for (int g = prior.length - 1; g >= 0; g--) {
            if (prior[g] > 0 && fits[g] != null && fits[g].logShare > best.logShare - HOPELESS) {
                again.fit(g, again.likelihood.at(fits[g].p), prior[g]);
            }
        }
        return again.found();
    }

    /** Fits one hand, from where the readings were looked at to where they were last. */
    private PassLikelihood.Point fit(int g, PassLikelihood.Point start, double prior) {
        Hand hand = Hand.GRID.get(g);
        double logPrior = FastMath.log(prior);
        double hopeless = best == null ? Double.NEGATIVE_INFINITY : best.logShare - HOPELESS - logPrior;
        Ascent.Top top = new Ascent(likelihood, hand, logSpeed).from(start, hopeless);
        double logShare = top.logEvidence() + logPrior;
        if (top.factor() != null && (fits[g] == null || logShare > fits[g].logShare)) {
            fits[g] = new Fit(hand, top.p(), top.factor(), top.value(), logShare);
            best = best == null || logShare > best.logShare ? fits[g] : best;
        }
        return top.seen();
    }

    private Optional<HandFits> found() {
        return Optional.of(this).filter(f -> f.best != null);
    }

    /** Whether a hand is calmer than one that is hopeless already for being too calm. */
    private boolean isHopeless(Hand hand) {
        return Arrays.stream(fits)
                .anyMatch(f -> f != null
                        && hand.isCalmerThan(f.hand)
                        && best.hand.isWilderThan(f.hand)
                        && f.logShare < best.logShare - FAR_TOO_CALM);
    }

    PassReadings readings() {
        return readings;
    }

    PassLikelihood likelihood() {
        return likelihood;
    }

    /** The most probable parameters of the most probable hand. */
    double[] best() {
        return best.p;
    }

    /** Of these, how many the readings rather than the prior determine. */
    double parameters() {
        return best.parameters();
    }

    /** Log of the probability of the readings, comparable between fits of the same readings under the same noise. */
    double logEvidence() {
        double sum = 0;
        for (double log : logShares()) {
            sum += FastMath.exp(log - best.logShare);
        }
        return readings.logPrior() + best.logShare + FastMath.log(sum);
    }

    /** How probable each hand of the grid is after the fits. */
    double[] shares() {
        return CrestMoments.shares(logShares());
    }

    private double[] logShares() {
        return Arrays.stream(fits)
                .mapToDouble(f -> f == null ? Double.NEGATIVE_INFINITY : f.logShare)
                .toArray();
    }

    CrestMoments moments() {
        Fit[] tried = Arrays.stream(fits).filter(f -> f != null).toArray(Fit[]::new);
        double[] logShare = Arrays.stream(tried).mapToDouble(Fit::logShare).toArray();
        return CrestMoments.mixed(Arrays.stream(tried).map(Fit::moments).toList(), CrestMoments.shares(logShare));
    }
}
