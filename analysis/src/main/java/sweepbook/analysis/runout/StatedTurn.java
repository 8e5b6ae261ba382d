package sweepbook.analysis.runout;

import java.util.Arrays;
import java.util.Locale;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.runout.fit.HarmonicChoice;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;
import sweepbook.analysis.uncertainty.Finding;

/** A part read at stated angles: stations that were typed in, or the angle of a second channel. */
final class StatedTurn {
    /** A gap in the angles wider than this, and than the stations are apart, leaves part of the turn unseen. */
    private static final double MOST_GAP_DEG = 10;

    private static final double TIMES_STATION = 1.9;
    /** Fewer readings than this are few. */
    private static final int FEW = 120;

    private static final int MOST_UNDULATIONS = 20;
    private static final double SAME_RAD = 1e-4;

    private StatedTurn() {}

    static Finding<Runout> read(Trace trace, Samples all, boolean[] spikeFree, RunoutSettings settings) {
        int n = trace.size();
        double[] unrolled = new double[n];
        for (int i = 0; i < n; i++) {
            unrolled[i] = i == 0
                    ? trace.angle_deg(0)
                    : unrolled[i - 1] + Math.IEEEremainder(trace.angle_deg(i) - unrolled[i - 1], 360);
        }
        double[] stations = stations(unrolled);
        double gap = widestGap(stations);
        double apart = 360.0 / stations.length;
        if (gap > Math.max(MOST_GAP_DEG, TIMES_STATION * apart)) {
            return Finding.notDetermined(
                    String.format(Locale.ROOT, "%.0f degrees of the turn were not read; read all round the part", gap));
        }
        if (stations.length < 4) {
            return Finding.notDetermined("only " + stations.length + " angles; read at four or more round the part");
        }
        boolean[] keep = stations.length > 60 ? spikeFree : allOf(n);
        double[] angles = Arrays.stream(unrolled).map(Math::toRadians).toArray();
        Samples samples = all.only(keep);
        double[] kept = only(angles, keep);
        int order = Math.max(1, Math.min(settings.order(), (stations.length - 1) / 2));
        double turns = Math.abs(unrolled[n - 1] - unrolled[0]) / 360;
        int drift = turns > 1.5 ? 1 : 0;
        int[] upr = n < FEW ? best(samples, kept, drift, order) : standing(samples, kept, drift, order);
        TurnFit fit = TurnFit.atAngles(samples, upr, drift, kept, TurnFit.Detail.ROUNDED);
        Figures figures = new Figures(fit, samples, betweenStations(fit), settings, order);
        figures.allowUnseen(HarmonicChoice.unseen_mm2(fit, order));
        return figures.runout(all, keep, angles, Math.toRadians(apart), AngleZero.STATED);
    }

    /**
     * How much more the stations' means scatter about the fit than the readings at one station let them: rounding is the
     * same for all readings of a station, however many they are.
     */
    private static double betweenStations(TurnFit fit) {
        double[] residual = fit.residuals_mm();
        double[] angle = fit.angles_rad();
        double between = 0;
        double within = 0;
        int stations = 0;
        for (int from = 0; from < residual.length; ) {
            int to = from;
            double sum = 0;
            while (to < residual.length && Math.abs(angle[to] - angle[from]) < SAME_RAD) {
                sum += residual[to++];
            }
            double mean = sum / (to - from);
            for (int i = from; i < to; i++) {
                within += (residual[i] - mean) * (residual[i] - mean);
            }
            between += (to - from) * mean * mean;
            stations++;
            from = to;
        }
        int left = stations - fit.covariance().getRowDimension();
        int repeats = residual.length - stations;
        double scatter = fit.scatter_mm() * fit.scatter_mm();
        return left < 3 || repeats < stations ? 1 : Math.max(1, between / left / Math.max(scatter, within / repeats));
    }

    /** With many readings, those undulations that stand above the noise. */
    private static int[] standing(Samples samples, double[] angles, int drift, int order) {
        int[] upr = HarmonicChoice.usual(order);
        for (int round = 0; round < 6; round++) {
            TurnFit fit = TurnFit.atAngles(samples, upr, drift, angles, TurnFit.Detail.PLAIN);
            int[] next =
                    HarmonicChoice.withMissing(fit, HarmonicChoice.pruned(fit, upr, order), order, MOST_UNDULATIONS);
            if (Arrays.equals(next, upr)) {
                break;
            }
            upr = next;
        }
        return upr;
    }

    /** With few readings one undulation hides the next: the strongest, as many as Akaike's corrected criterion bears. */
    private static int[] best(Samples samples, double[] angles, int drift, int order) {
        int n = samples.size();
        int[] upr = {1};
        int[] best = upr;
        double bestScore = Double.POSITIVE_INFINITY;
        while (4 + drift + 2 * upr.length < n) {
            TurnFit fit = TurnFit.atAngles(samples, upr, drift, angles, TurnFit.Detail.PLAIN);
            double rss = fit.scatter_mm() * fit.scatter_mm() * fit.degreesOfFreedom();
            double unknowns = 2 + drift + 2 * upr.length;
            double score = n * Math.log(rss) + 2 * unknowns + 2 * unknowns * (unknowns + 1) / (n - unknowns - 1);
            if (score < bestScore) {
                bestScore = score;
                best = upr;
            }
            if (upr.length == order) {
                break;
            }
            upr = HarmonicChoice.withStrongest(fit, upr, order);
        }
        return best;
    }

    private static boolean[] allOf(int n) {
        boolean[] all = new boolean[n];
        Arrays.fill(all, true);
        return all;
    }

    private static double[] only(double[] values, boolean[] keep) {
        double[] some = new double[values.length];
        int n = 0;
        for (int i = 0; i < values.length; i++) {
            if (keep[i]) {
                some[n++] = values[i];
            }
        }
        return Arrays.copyOf(some, n);
    }

    /** The different angles within a turn, ascending, to a hundredth of a degree. */
    private static double[] stations(double[] angle_deg) {
        return Arrays.stream(angle_deg)
                .map(a -> Math.rint((a - 360 * Math.floor(a / 360)) * 100) / 100 % 360)
                .sorted()
                .distinct()
                .toArray();
    }

    private static double widestGap(double[] stations) {
        double widest = stations[0] + 360 - stations[stations.length - 1];
        for (int i = 1; i < stations.length; i++) {
            widest = Math.max(widest, stations[i] - stations[i - 1]);
        }
        return widest;
    }
}
