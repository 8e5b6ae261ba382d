package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import sweepbook.analysis.runout.angle.Turning;

/**
 * Finds the fit of a part that turned while it was read: how stiff its motion was, which undulations it has, and which
 * readings are spikes, each judged by the others until nothing changes.
 */
public final class MotionSearch {
    /** So little wander is no matter over any number of turns that is read: the turning is even. */
    public static final double EVEN_WANDER = 2e-5;

    /** Standard deviation of the speed's wander over one turn, relative: a spindle first, a hand last. */
    private static final double[] WANDER = {EVEN_WANDER, 1e-3, 0.01, 0.03, 0.1, 0.3, 1};

    private static final double MOST_OF_A_SPINDLE = 0.1;

    /** A stiff motion needs few knots: so many a turn for each wander. */
    private static final int[] KNOTS_A_TURN = {1, 1, 6, 12, 24, 24, 24};

    private static final int ROUNDS = 4;
    /** Where one wander makes the readings so much less probable, in log odds, the next will not mend it. */
    private static final double FAR_WORSE = 12;

    private static final int MOST_UNDULATIONS = 20;
    private static final double OUTLIER_SIGMAS = 4.5;
    /** Rounding alone moves a reading by half a step; so much cannot be rounding and little noise. */
    private static final double LEAST_OUTLIER_STEPS = 1.6;
    /** Standard deviation of rounding, and of a little noise on it, in steps. */
    private static final double QUIET_STEPS = 0.45;

    /** Where more than one reading in eight would be left out, it is the fit that is wrong. */
    private static final double LEAST_KEPT = 0.875;
    /** Beyond twice so many, neighbours are averaged, if that leaves enough a turn. */
    private static final int MANY_SAMPLES = 4_000;

    private static final int SAMPLES_A_TURN = 48;
    private static final int MOST_SAMPLES = 12_000;

    private final Samples all;
    private final Turning start;
    private final Anchors anchors;
    private final boolean loosestFirst;
    private final int wanders;
    private final int order;
    private final int drift;
    private Readings readings;
    private Samples samples;
    private TurnFit fit;
    private int byWander;

    /**
     * @param readings those kept do not lie off their neighbours
     * @param start a first idea of the motion
     * @param loosestFirst whether it may be anything, so that it is to be stiffened and not loosened
     * @param mostWander the speed wanders by no more over a turn, relative
     */
    public MotionSearch(
            Readings readings,
            Turning start,
            Anchors anchors,
            boolean loosestFirst,
            double mostWander,
            int highestOrder) {
        wanders = (int)
                Math.max(1, Arrays.stream(WANDER).filter(w -> w <= mostWander).count());
        all = readings.all();
        this.readings = readings;
        this.start = start;
        this.anchors = anchors;
        this.loosestFirst = loosestFirst;
        double turns = turns();
        samples = grouped(readings.kept(), turns);
        order = (int) Math.max(1, Math.min(highestOrder, samples.size() / turns / 3));
        drift = samples.size() > 40 ? 1 : 0;
        search();
    }

    private MotionSearch(MotionSearch found, Turning start, Anchors anchors) {
        all = found.all;
        this.start = start;
        this.anchors = anchors;
        loosestFirst = false;
        wanders = 1;
        order = found.order;
        drift = found.drift;
        readings = found.readings;
        samples = found.samples;
        fit = lastFit(found.fit.profile().upr(), start, 0);
    }

    /** The same undulations in the same readings, turned evenly, the angles held by other anchors. */
    public MotionSearch evenly(Turning start, Anchors anchors) {
        return new MotionSearch(this, start, anchors);
    }

    private static Samples grouped(Samples kept, double turns) {
        int most = (int) Math.max(MANY_SAMPLES, Math.min(MOST_SAMPLES, SAMPLES_A_TURN * turns));
        return kept.size() >= 2 * most ? kept.grouped(kept.size() / most) : kept;
    }

    private double turns() {
        return (start.angle_rad(all.to_s()) - start.angle_rad(all.from_s())) / (2 * Math.PI);
    }

    private void search() {
        int[] upr = startingUndulations();
        int wander = 0;
        for (int round = 0; round < ROUNDS; round++) {
            fit = null;
            int worse = 0;
            Turning from = start;
            for (int k = 0; k < wanders; k++) {
                int tried = loosestFirst ? wanders - 1 - k : k;
                TurnFit now = motion(upr, from, tried, TurnFit.Detail.PLAIN);
                from = now.turning();
                if (fit == null || now.evidence() > fit.evidence()) {
                    fit = now;
                    wander = tried;
                    worse = 0;
                } else if (++worse == 2 || now.evidence() < fit.evidence() - FAR_WORSE) {
                    break;
                }
            }
            if (standsStill()) {
                // Rounding makes undulations of its own; only what lies outside the display's steps is the part's.
                fit = motion(upr, fit.turning(), wander, TurnFit.Detail.ROUNDED);
            }
            boolean sameReadings = setAsideOutliers();
            int[] next =
                    HarmonicChoice.withMissing(fit, HarmonicChoice.pruned(fit, upr, order), order, MOST_UNDULATIONS);
            if (sameReadings && Arrays.equals(next, upr)) {
                break;
            }
            upr = next;
        }
        fit = lastFit(upr, fit.turning(), wander);
        byWander = wander;
    }

    private TurnFit lastFit(int[] upr, Turning from, int wander) {
        return motion(upr, from, wander, samples.grouped_s() == 0 ? TurnFit.Detail.ROUNDED : TurnFit.Detail.PLAIN);
    }

    /**
     * How far the figures would lie off these if the motion had wandered more or less than the readings make most
     * likely: the fits for other wanders, each weighted by how probable it makes the readings.
     */
    public RealMatrix covarianceByWander() {
        int p = fit.covariance().getRowDimension();
        RealMatrix sum = new Array2DRowRealMatrix(p, p);
        if (byWander == 0) {
            return sum;
        }
        int[] upr = fit.profile().upr();
        double ratio = Math.sqrt(WANDER[byWander] / WANDER[byWander - 1]);
        RealVector here = null;
        double likeliest = 0;
        double weights = 0;
        for (double times : new double[] {1, ratio, 1 / ratio, ratio * ratio, 1 / (ratio * ratio)}) {
            TurnFit other =
                    motion(upr, fit.turning(), times * WANDER[byWander], KNOTS_A_TURN[byWander], TurnFit.Detail.PLAIN);
            if (here == null) {
                here = other.coefficients();
                likeliest = other.evidence();
            }
            double weight = Math.exp(Math.min(0, other.evidence() - likeliest));
            RealVector off = other.coefficients().subtract(here);
            sum = sum.add(off.outerProduct(off).scalarMultiply(weight));
            weights += weight;
        }
        return sum.scalarMultiply(1 / weights);
    }

    /** Whether noise moves the reading less than the display rounds it. */
    private boolean standsStill() {
        return samples.grouped_s() == 0 && fit.scatter_mm() < QUIET_STEPS * samples.step_mm();
    }

    private int[] startingUndulations() {
        int[] upr = HarmonicChoice.usual(order);
        double[] angle = start.angles_rad(samples.time_s());
        for (int round = 0; round < ROUNDS; round++) {
            TurnFit at = TurnFit.atAngles(samples, upr, drift, angle, TurnFit.Detail.PLAIN);
            int[] more = HarmonicChoice.withMissing(at, upr, order, MOST_UNDULATIONS);
            if (more.length == upr.length) {
                break;
            }
            upr = more;
        }
        return upr;
    }

    private TurnFit motion(int[] upr, Turning from, int wander, TurnFit.Detail detail) {
        return motion(upr, from, WANDER[wander], KNOTS_A_TURN[wander], detail);
    }

    private TurnFit motion(int[] upr, Turning from, double wander, int knotsATurn, TurnFit.Detail detail) {
        double speed = turns() * 2 * Math.PI / (all.to_s() - all.from_s());
        double kappa = wander * wander * speed * speed * speed / (2 * Math.PI);
        Turning knots = from.withKnotsEvery(2 * Math.PI / knotsATurn, all.from_s(), all.to_s());
        return TurnFit.ofMotion(samples, upr, drift, knots, anchors, kappa, detail);
    }

    /** Looks at every reading again by the fit; true if the same ones are left out as before. */
    private boolean setAsideOutliers() {
        if (samples.grouped_s() > 0) {
            return true;
        }
        double limit = Math.max(
                OUTLIER_SIGMAS * Spikes.robustSigma(fit.residuals_mm()), LEAST_OUTLIER_STEPS * samples.step_mm());
        double[] angle = fit.turning().angles_rad(all.time_s());
        Profile profile = fit.profile();
        boolean[] fits = new boolean[all.size()];
        int in = 0;
        for (int i = 0; i < fits.length; i++) {
            double departure = all.reading_mm()[i] - profile.at(angle[i]) - fit.drift_mm(all.time_s()[i]);
            fits[i] = Math.abs(departure) <= limit;
            in += fits[i] ? 1 : 0;
        }
        if (in < LEAST_KEPT * fits.length || Arrays.equals(fits, readings.keep())) {
            return true;
        }
        readings = new Readings(all, fits);
        samples = readings.kept();
        return false;
    }

    public TurnFit fit() {
        return fit;
    }

    /** What was fitted. */
    public Samples samples() {
        return samples;
    }

    /** Which of all readings are no spikes. */
    public boolean[] kept() {
        return readings.keep().clone();
    }

    /** Whether one speed throughout fits best. */
    public boolean isEven() {
        return byWander == 0;
    }

    /** Whether the speed wandered as no spindle's does. */
    public boolean isByHand() {
        return WANDER[byWander] > MOST_OF_A_SPINDLE;
    }

    /** The highest undulation number that could be looked at. */
    public int order() {
        return order;
    }

    public Anchors anchors() {
        return anchors;
    }
}
