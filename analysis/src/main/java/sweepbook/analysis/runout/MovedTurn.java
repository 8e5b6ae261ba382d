package sweepbook.analysis.runout;

import java.util.Arrays;
import java.util.Locale;
import sweepbook.analysis.runout.angle.Turning;
import sweepbook.analysis.runout.fit.Anchors;
import sweepbook.analysis.runout.fit.HarmonicChoice;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.Spikes;
import sweepbook.analysis.runout.fit.TurnFit;
import sweepbook.analysis.uncertainty.Finding;

/** A part that turned while it was read, evenly or by hand: angle, profile and drift are found together. */
final class MovedTurn {
    /** Standard deviation of the speed's wander over one turn, relative: a spindle first, a hand last. */
    private static final double[] WANDER = {1e-3, 0.01, 0.03, 0.1, 0.3, 1};

    /** A stiff motion needs few knots: so many a turn for each wander. */
    private static final int[] KNOTS_A_TURN = {1, 6, 12, 24, 24, 24};

    private static final int MOST_UNDULATIONS = 20;
    private static final double OUTLIER_SIGMAS = 4.5;

    private final Samples all;
    private final Turning start;
    private final Anchors anchors;
    private final RunoutSettings settings;
    private final int order;
    private final int drift;
    private Samples samples;
    private int setAside;

    private MovedTurn(Samples samples, Samples all, Turning start, Anchors anchors, RunoutSettings settings) {
        this.samples = samples;
        this.all = all;
        this.start = start;
        this.anchors = anchors;
        this.settings = settings;
        double turns = turns(this.start);
        order = (int) Math.max(1, Math.min(settings.order(), samples.size() / turns / 3));
        drift = turns > 1.5 || samples.size() > 40 ? 1 : 0;
    }

    private double turns(Turning turning) {
        return (turning.angle_rad(samples.to_s()) - turning.angle_rad(samples.from_s())) / (2 * Math.PI);
    }

    static Finding<Runout> read(
            Samples all,
            boolean[] keep,
            Samples samples,
            Turning start,
            Anchors anchors,
            AngleZero zero,
            int marksPerTurn,
            RunoutSettings settings) {
        MovedTurn turn = new MovedTurn(samples, all, start, anchors, settings);
        TurnFit fit = turn.fit(marksPerTurn > 0);
        return turn.evenEnough(fit.turning(), marksPerTurn).flatMap(even -> {
            Figures figures = new Figures(fit, turn.samples, settings, turn.order);
            double[] angles = fit.turning().angles_rad(all.time_s());
            double apart = (angles[angles.length - 1] - angles[0]) / (angles.length - 1);
            return figures.runout(all, keep, angles, apart, zero, turn.setAside);
        });
    }

    private TurnFit fit(boolean marked) {
        int[] upr = {1};
        TurnFit fit = TurnFit.atAngles(samples, upr, drift, start.angles_rad(samples.time_s()), TurnFit.Detail.PLAIN);
        for (int round = 0; round < 4; round++) {
            int[] more = HarmonicChoice.withMissing(fit, upr, order, MOST_UNDULATIONS);
            if (more.length == upr.length) {
                break;
            }
            upr = more;
            fit = TurnFit.atAngles(samples, upr, drift, start.angles_rad(samples.time_s()), TurnFit.Detail.PLAIN);
        }
        TurnFit best = null;
        int wander = 0;
        for (int round = 0; round < 3; round++) {
            best = null;
            Turning from = start;
            for (int k = 0; k < WANDER.length; k++) {
                int tried = marked ? WANDER.length - 1 - k : k;
                TurnFit now = motion(upr, from, tried, TurnFit.Detail.PLAIN);
                from = now.turning();
                if (best == null || now.evidence() > best.evidence()) {
                    best = now;
                    wander = tried;
                }
            }
            boolean same = setAsideOutliers(best);
            int[] next =
                    HarmonicChoice.withMissing(best, HarmonicChoice.pruned(best, upr, order), order, MOST_UNDULATIONS);
            if (same && Arrays.equals(next, upr)) {
                break;
            }
            upr = next;
        }
        return motion(upr, best.turning(), wander, detail());
    }

    private TurnFit.Detail detail() {
        return samples.grouped_s() == 0 ? TurnFit.Detail.ROUNDED : TurnFit.Detail.PLAIN;
    }

    private double kappa(double wander) {
        double speed = turns(start) * 2 * Math.PI / (samples.to_s() - samples.from_s());
        return wander * wander * speed * speed * speed / (2 * Math.PI);
    }

    private TurnFit motion(int[] upr, Turning from, int wander, TurnFit.Detail detail) {
        Turning knots = from.withKnotsEvery(2 * Math.PI / KNOTS_A_TURN[wander], all.time_s()[0], all.to_s());
        return TurnFit.ofMotion(samples, upr, drift, knots, anchors, kappa(WANDER[wander]), detail);
    }

    /** True if there were none. */
    private boolean setAsideOutliers(TurnFit fit) {
        double[] residual = fit.residuals_mm();
        double limit = Math.max(OUTLIER_SIGMAS * Spikes.robustSigma(residual), 1.2 * samples.step_mm());
        boolean[] keep = new boolean[residual.length];
        int out = 0;
        for (int i = 0; i < keep.length; i++) {
            keep[i] = Math.abs(residual[i]) <= limit;
            out += keep[i] ? 0 : 1;
        }
        if (out == 0 || out > residual.length / 10) {
            return true;
        }
        setAside += out;
        samples = samples.only(keep);
        return false;
    }

    private Finding<Turning> evenEnough(Turning turning, int marksPerTurn) {
        double[] speed = new double[turning.knots()];
        for (int k = 0; k < speed.length; k++) {
            speed[k] = turning.knotSpeed_rad_per_s(k);
        }
        double median = Spikes.quantile(speed, 0.5);
        double slowest = marksPerTurn == 0 ? 0.6 : marksPerTurn < 4 ? 0.3 : 0.05;
        for (int k = 0; k < speed.length; k++) {
            if (speed[k] < slowest * median) {
                return Finding.notDetermined(String.format(
                        Locale.ROOT,
                        "at about %.2f s the turning %s; %s",
                        turning.knot_s(k),
                        speed[k] < 0 ? "went back" : "nearly stopped",
                        marksPerTurn == 0 ? "turn at even speed, or mark the turns" : "turn again without a stop"));
            }
        }
        return Finding.found(turning);
    }
}
