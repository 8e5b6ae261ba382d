package sweepbook.analysis.sweep;

/** Levenberg and Marquardt's ascent to the most probable parameters of a pass, by one hand. */
final class Ascent {
    private static final int MOST_ROUNDS = 40;
    /** Of the logarithm of speed in one round. */
    private static final double LONGEST_STEP = 1.5;

    private static final double DONE = 1e-3;
    /** A last step that gains less is taken without looking where it leads. */
    private static final double TRUSTED = 0.1;
    /** The same where only a beginning is wanted. */
    private static final double ROUGHLY = 1;
    /** Hardly an ascent gains in the end so many times what its next step seems to gain. */
    private static final double FARTHER = 4;

    /** After a step that led downwards. */
    private static final double FIRST_DAMPING = 1e-3;
    /** After another such step, and after one upwards: rather too much than to fail at every second step. */
    private static final double MORE = 10;

    private static final double LESS = 3;
    /** Less is none. */
    private static final double LEAST_DAMPING = 1e-6;

    private static final double MOST_DAMPING = 1e8;

    private final PassLikelihood likelihood;
    private final Hand hand;
    private final double logSpeed;

    /**
     * Where an ascent ends; of one that was given up value and evidence are more than it would have come to.
     *
     * @param p the most probable parameters
     * @param value log posterior there
     * @param factor of the inverse of their covariance; null where that is none
     * @param logEvidence log of the probability of the readings by this hand (Laplace's approximation)
     * @param seen what the readings say there or nearby: where the ascent by another hand begins
     */
    record Top(double[] p, double value, Cholesky factor, double logEvidence, PassLikelihood.Point seen) {}

    /**
     * @param logSpeed about which the logarithm of speed is expected
     */
    Ascent(PassLikelihood likelihood, Hand hand, double logSpeed) {
        this.likelihood = likelihood;
        this.hand = hand;
        this.logSpeed = logSpeed;
    }

    /**
     * The ascent from a point at which the readings were looked at.
     *
     * @param hopeless log evidence; an ascent that cannot come so far is given up
     */
    Top from(PassLikelihood.Point start, double hopeless) {
        return from(start, hopeless, TRUSTED);
    }

    /** The most probable parameters, however improbable the hand. */
    double[] parametersFrom(PassLikelihood.Point start) {
        return from(start, Double.NEGATIVE_INFINITY, TRUSTED).p;
    }

    /** Parameters near the most probable ones. */
    double[] roughlyFrom(PassLikelihood.Point start) {
        return from(start, Double.NEGATIVE_INFINITY, ROUGHLY).p;
    }

    private Top from(PassLikelihood.Point start, double hopeless, double trusted) {
        PassLikelihood.Point seen = start;
        PassLikelihood.Point at = seen.by(hand, logSpeed);
        double damping = 0;
        for (int round = 0; round < MOST_ROUNDS && damping < MOST_DAMPING; round++) {
            Cholesky factor = Cholesky.of(at.hessian, damping);
            if (factor == null) {
                damping = Math.max(FIRST_DAMPING, damping * MORE);
                continue;
            }
            double[] next = factor.solve(at.gradient);
            double gain = 0;
            double longest = LONGEST_STEP;
            for (int i = 0; i < next.length; i++) {
                gain += next[i] * at.gradient[i] / 2;
                longest = i < PassLikelihood.SPEED ? longest : Math.max(longest, Math.abs(next[i]));
            }
            for (int i = 0; i < next.length; i++) {
                next[i] = at.p[i] + LONGEST_STEP / longest * next[i];
            }
            if (gain < trusted) {
                return top(next, at.value + gain, damping == 0 ? factor : Cholesky.of(at.hessian), seen);
            }
            if (logEvidence(at.value + FARTHER * gain, factor) < hopeless) {
                return top(next, at.value + FARTHER * gain, factor, seen);
            }
            PassLikelihood.Point looked = likelihood.at(next);
            PassLikelihood.Point there = looked.by(hand, logSpeed);
            if (there.value >= at.value) {
                boolean done = there.value - at.value < DONE;
                seen = looked;
                at = there;
                damping = damping > LEAST_DAMPING ? damping / LESS : 0;
                if (done) {
                    break;
                }
            } else {
                damping = Math.max(FIRST_DAMPING, damping * MORE);
            }
        }
        return top(at.p, at.value, Cholesky.of(at.hessian), seen);
    }

    private Top top(double[] p, double value, Cholesky factor, PassLikelihood.Point seen) {
        return new Top(p, value, factor, factor == null ? Double.NEGATIVE_INFINITY : logEvidence(value, factor), seen);
    }

    private double logEvidence(double value, Cholesky factor) {
        return value + 0.5 * (hand.logDeterminant() - factor.logDeterminant());
    }
}
