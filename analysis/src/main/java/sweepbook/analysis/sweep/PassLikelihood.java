package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * The likelihood of a pass' readings. The parameters are the crest h, the curvature g of the contact, the distance from the
 * crest over sqrt(2 Re) in the middle of the pass' time, and the logarithm of its speed at knots: readings are h - z with
 * z - g z^2 = P^2 and g = 1 / (2 Re), which is the exact drop Re - sqrt(Re^2 - s^2) of a ball on a round.
 *
 * <p>The hand's speed carries a prior; a reading may be a spike, so its likelihood is mixed with a flat one over the range of
 * the pass.
 */
final class PassLikelihood {
    /** Where the distance in the middle stands among the parameters, before the logarithms of speed. */
    static final int P0 = 2;

    /** Where the logarithms of speed begin. */
    static final int SPEED = P0 + 1;

    /** Parameters behind those of speed where the hand paused: where it stood, and the distance in the middle seen from after it. */
    private static final int PAUSE = 2;

    private static final double SPIKE_SHARE = 0.03;
    /** The contact cannot be past its equator: beyond this share of it the drop goes on as a straight line. */
    static final double STEEPEST = 0.95;

    private final PassReadings readings;
    private final Rounding rounding;
    private final CellSums.Readings said;
    private final HandMotion even;
    private final HandMotion uneven;
    private final double logFlat;
    private final SaidCurve orSpike;
    private final Bend bend;
    private final double crestSpread_mm;

    /** What is known of the contact's curvature g, per mm: mean and standard deviation. */
    record Bend(double mean, double spread) {
        /** A ball contact on a round of 2 to 60 mm radius altogether. */
        static final Bend UNKNOWN = new Bend(0.06, 0.06);
    }

    PassLikelihood(PassReadings readings, Rounding rounding, Bend bend) {
        this(
                readings,
                new HandMotion(readings.time, Hand.EVEN.knots()),
                new HandMotion(readings.time, Hand.USUAL.knots()),
                rounding,
                bend);
    }

    private PassLikelihood(PassReadings readings, HandMotion even, HandMotion uneven, Rounding rounding, Bend bend) {
        this.readings = readings;
        this.even = even;
        this.uneven = uneven;
        this.rounding = rounding;
        this.bend = bend;
        said = new CellSums.Readings(readings.size());
        // The crest cannot lie far above the line's top; this only keeps a fit from running away.
        crestSpread_mm = 0.1 * readings.fall_mm() + 6 * FastMath.sqrt(rounding.variance_mm2());
        double range = 2 * Math.max(readings.fall_mm(), 8 * FastMath.sqrt(rounding.variance_mm2()));
        logFlat = FastMath.log(SPIKE_SHARE / (1 - SPIKE_SHARE) / range);
        orSpike = rounding.orSpike(logFlat);
    }

    /** That of the same readings under another noise. */
    PassLikelihood under(Rounding other, Bend known) {
        return new PassLikelihood(readings, even, uneven, other, known);
    }

    /** A point of the parameters with the log probability there, its gradient and its negative Hessian (Gauss-Newton, lower triangle). */
    static final class Point {
        final double[] p;
        final double[] gradient;
        final double[][] hessian;
        double value;

        private Point(double[] p) {
            this.p = p;
            gradient = new double[p.length];
            hessian = new double[p.length][];
            for (int i = 0; i < p.length; i++) {
                hessian[i] = new double[i + 1];
            }
        }

        private Point(Point other) {
            p = other.p;
            value = other.value;
            gradient = other.gradient.clone();
            hessian = new double[p.length][];
            for (int i = 0; i < p.length; i++) {
                hessian[i] = other.hessian[i].clone();
            }
        }

        /** The log probability where the motion is that of a hand, the logarithm of its speed expected about a given one. */
        double value(Hand hand, double logSpeed) {
            return value + hand.log(p, logSpeed);
        }

        /** The same where the motion is that of a hand, the logarithm of its speed expected about a given one. */
        Point by(Hand hand, double logSpeed) {
            Point by = new Point(this);
            for (int a = 0; a < hand.knots(); a++) {
                double pull = 0;
                for (int b = 0; b < hand.knots(); b++) {
                    pull += hand.precision(a, b) * (p[SPEED + b] - logSpeed);
                    if (b <= a) {
                        by.hessian[SPEED + a][SPEED + b] += hand.precision(a, b);
                    }
                }
                by.gradient[SPEED + a] -= pull;
                by.value -= pull * (p[SPEED + a] - logSpeed) / 2;
            }
            return by;
        }
    }

    private HandMotion motion(double[] p) {
        int last = p.length - 1;
        HandMotion motion = last == SPEED || last == SPEED + PAUSE ? even : uneven;
        motion.set(p, P0, readings.pauses() ? last : P0);
        return motion;
    }

    /** What the readings say, and what is believed of crest and bend. */
    Point at(double[] p) {
        Point point = new Point(p);
        point.value = readings(point, motion(p));
        point.value += prior(point, 0, readings.topLine_mm, crestSpread_mm);
        point.value += prior(point, 1, bend.mean(), bend.spread());
        readings.pause().ifPresent(pause -> point.value += paused(point, pause));
        return point;
    }

    /** Log likelihood of the readings; puts its derivatives into the point. */
    private double readings(Point point, HandMotion motion) {
        double crest_mm = point.p[0];
        double g = point.p[1];
        double value = 0;
        for (int cell = 0; cell < motion.cells(); cell++) {
            for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
                double u = motion.distance(cell, i);
                double square = u * u;
                double root = Math.sqrt(Math.max(1 - STEEPEST, 1 - 4 * g * square));
                double z = 2 * square / (1 + root);
                double perRoot = 1 / root;
                Rounding.Said one = orSpike.said(readings.pressed_mm[i] - crest_mm + z);
                value += one.log();
                said.score[i] = one.score();
                said.information[i] = one.information();
                said.byBend[i] = -z * z * perRoot;
                said.byDistance[i] = -2 * u * perRoot;
            }
        }
        new CellSums(motion, point.gradient, point.hessian).add(said);
        return value;
    }

    /** What the readings of the pause say, and what is believed of where and when the hand stood. */
    private double paused(Point point, Pause pause) {
        int place = point.p.length - PAUSE;
        int after = place + 1;
        double[] gradient = point.gradient;
        double[][] hessian = point.hessian;
        double u = point.p[place];
        double root = Math.sqrt(Math.max(1 - STEEPEST, 1 - 4 * point.p[1] * u * u));
        double z = 2 * u * u / (1 + root);
        double b = -z * z / root;
        double s = -2 * u / root;
        double value = 0;
        for (double stood_mm : readings.stood_mm) {
            Rounding.Said one = orSpike.said(stood_mm - point.p[0] + z);
            value += one.log();
            gradient[0] += one.score();
            gradient[1] += one.score() * b;
            gradient[place] += one.score() * s;
            hessian[0][0] += one.information();
            hessian[1][0] += one.information() * b;
            hessian[1][1] += one.information() * b * b;
            hessian[place][0] += one.information() * s;
            hessian[place][1] += one.information() * s * b;
            hessian[place][place] += one.information() * s * s;
        }
        value += prior(point, place, pause.place(), pause.spread()) - FastMath.log(pause.spread());
        for (int end : new int[] {P0, after}) {
            // The hand stood where it came to and went on from there, but for when that was.
            double w = 1 / (pause.reach() * pause.reach());
            double off = point.p[end] - u;
            gradient[end] -= off * w;
            gradient[place] += off * w;
            hessian[end][end] += w;
            hessian[place][place] += w;
            hessian[Math.max(end, place)][Math.min(end, place)] -= w;
            value -= off * off * w / 2 + FastMath.log(pause.reach());
        }
        return value;
    }

    private static double prior(Point point, int at, double mean, double spread) {
        double off = (point.p[at] - mean) / spread;
        point.gradient[at] -= off / spread;
        point.hessian[at][at] += 1 / (spread * spread);
        return -off * off / 2;
    }

    /** The pause at the times at which the motion comes to where the hand stood, and goes on from there; no farther off than that. */
    Pause settled(double[] p, double farthest_s) {
        double place = p[p.length - PAUSE];
        double seconds = readings.perUnit() / motion(p).speed();
        double from = (place - p[P0]) * seconds;
        double to = (place - p[p.length - PAUSE + 1]) * seconds;
        Pause pause = readings.pause().orElseThrow();
        return pause.between(pause.from_s() + within(from, farthest_s), pause.to_s() + within(to, farthest_s));
    }

    private static double within(double value, double most) {
        return Math.max(-most, Math.min(most, value));
    }

    /** P at each reading. */
    double[] distances(double[] p) {
        HandMotion motion = motion(p);
        double[] u = new double[readings.size()];
        for (int cell = 0; cell < motion.cells(); cell++) {
            for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
                u[i] = motion.distance(cell, i);
            }
        }
        return u;
    }

    /** The readings above the model. */
    double[] residuals_mm(double[] p) {
        double[] r = distances(p);
        for (int i = 0; i < r.length; i++) {
            double root = FastMath.sqrt(Math.max(1 - STEEPEST, 1 - 4 * p[1] * r[i] * r[i]));
            r[i] = readings.pressed_mm[i] - p[0] + 2 * r[i] * r[i] / (1 + root);
        }
        return r;
    }

    /** Probability that a reading with this residual is no spike. */
    double belongs(double residual_mm) {
        return 1 / (1 + Math.exp(logFlat - rounding.log(residual_mm)));
    }
}
