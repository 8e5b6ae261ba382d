package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * How even a hand is believed to be before a pass is seen: the logarithm of its speed, at knots that are evenly spread over the
 * pass, is normal about a level of which little is known, with a Matern covariance of smoothness 3/2.
 */
final class Hand {
    private static final int KNOTS = 20;
    /** Of the level; a factor of twenty either way. */
    private static final double LEVEL_SPREAD = 3;
    /** As shares of half a pass: a hand that changes its speed slowly, and one that jerks. */
    private static final double SLOW = 0.8;

    private static final double QUICK = 0.25;
    static final Hand EVEN = new Hand(0, 1, 1);

    /** From even to very uneven; what is tried on a pass. */
    static final List<Hand> GRID = List.of(
            EVEN,
            new Hand(0.05, SLOW, KNOTS),
            new Hand(0.15, SLOW, KNOTS),
            new Hand(0.4, SLOW, KNOTS),
            new Hand(1, SLOW, KNOTS),
            new Hand(0.05, QUICK, KNOTS),
            new Hand(0.15, QUICK, KNOTS),
            new Hand(0.4, QUICK, KNOTS),
            new Hand(1, QUICK, KNOTS));

    /** What most hands are like, to begin with. */
    static final Hand USUAL = GRID.get(3);

    /** Changes its speed least and latest, but for the even one. */
    static final Hand CALM = GRID.get(1);

    /** Changes its speed most and soonest. */
    static final Hand WILD = GRID.get(8);

    /** Beliefs by which the motion is even, as one that is counted in equal clicks. */
    static double[] evenOnly() {
        double[] belief = new double[GRID.size()];
        belief[GRID.indexOf(EVEN)] = 1;
        return belief;
    }

    private final double amplitude;
    private final double range;
    private final double[][] precision;
    private final Cholesky root;
    private final double logDeterminant;

    /**
     * @param amplitude standard deviation of the logarithm of speed
     * @param range within which it hardly changes, in half passes
     */
    private Hand(double amplitude, double range, int knots) {
        this.amplitude = amplitude;
        this.range = range;
        double[][] covariance = new double[knots][knots];
        for (int i = 0; i < knots; i++) {
            for (int j = 0; j < knots; j++) {
                double x = FastMath.sqrt(3) * 2 * Math.abs(i - j) / Math.max(1, knots - 1) / range;
                double wander = amplitude * amplitude * (1 + x) * FastMath.exp(-x);
                covariance[i][j] = LEVEL_SPREAD * LEVEL_SPREAD + wander * (i == j ? 1 + 1e-6 : 1);
            }
        }
        Cholesky factor = Cholesky.of(covariance);
        precision = new double[knots][];
        for (int i = 0; i < knots; i++) {
            precision[i] = factor.inverseColumn(i);
        }
        root = Cholesky.of(precision);
        logDeterminant = root.logDeterminant();
    }

    /** Whether it changes its speed less than another that changes it as slowly. */
    boolean isCalmerThan(Hand other) {
        return other.isWilderThan(this) && (range == other.range || amplitude == 0);
    }

    /** Whether it changes its speed more, slowly or quickly. */
    boolean isWilderThan(Hand other) {
        return amplitude > other.amplitude;
    }

    /** Knots at which the speed is told: one where it is even. */
    int knots() {
        return precision.length;
    }

    /**
     * Log of how likely logarithms of speed are, but for a constant.
     *
     * @param p parameters that hold them
     * @param logSpeed about which they are expected
     */
    double log(double[] p, double logSpeed) {
        return -root.square(p, PassLikelihood.SPEED, logSpeed) / 2;
    }

    /** Between two knots, of the inverse covariance. */
    double precision(int i, int j) {
        return precision[i][j];
    }

    /** Factor of the inverse covariance. */
    Cholesky root() {
        return root;
    }

    /** Log determinant of the inverse covariance. */
    double logDeterminant() {
        return logDeterminant;
    }
}
