package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.Locale;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * The level of a stretch in which nothing is meant to move: the longest tail of it that does not creep, its mean under
 * rounding and spikes, and its uncertainty under noise that hangs together from reading to reading.
 */
final class DwellLevel {
    /** A level that goes on moving by more than one resolution in five seconds is no level. */
    static final double CREEP_s = 5;

    private static final double SEEN = 3;
    private static final double BLIND = 1.5;
    private static final int FEWEST = 4;
    private static final int CUTS = 12;
    private static final double SPIKE_SHARE = 0.03;
    private static final int NODES = 200;

    private final CleanTrace trace;
    private final Rounding rounding;
    private final double logFlat;

    /** The dwell's readings are as noisy as those of the passes. */
    DwellLevel(CleanTrace trace, double noise_mm) {
        this.trace = trace;
        double q = trace.resolution_mm();
        rounding = new Rounding(Math.max(Math.max(noise_mm, 0.05 * q), 1e-9), q);
        double s = FastMath.sqrt(rounding.variance_mm2());
        logFlat = FastMath.log(SPIKE_SHARE / (60 * s));
    }

    /** The part of a stretch that stands, readings from (inclusive) to (exclusive). */
    record Level(Estimate level, int from, int to) {}

    /** The level of all readings of a stretch, creeping or not. */
    Level all(int from, int to) {
        return new Level(level(new Spread(from, to)), from, to);
    }

    /** The level of the longest tail that stands; not determined while it creeps. */
    Finding<Level> settled(int from, int to) {
        if (to - from < FEWEST) {
            return Finding.notDetermined("only " + (to - from) + " readings at rest: hold still for longer");
        }
        double q = trace.resolution_mm();
        int start = from;
        Spread spread = new Spread(start, to);
        // Under noise of several steps no creep that matters could be seen in the time that a person waits.
        boolean creeping = Math.abs(spread.slope) * CREEP_s > q && spread.perReading_mm2 < BLIND * BLIND * q * q;
        for (int cut = 0; cut < CUTS; cut++) {
            start = from + (to - from) * cut / (CUTS + 4);
            if (to - start < FEWEST) {
                break;
            }
            spread = new Spread(start, to);
            double change = Math.abs(spread.slope) * spread.seconds;
            boolean flat = change <= Math.max(SEEN * spread.slopeU * spread.seconds, 0.1 * q) && !spread.bent();
            // What is left of a stretch that moved has to show that it does not.
            boolean shown = !creeping || cut == 0 || (Math.abs(spread.slope) + 1.5 * spread.slopeU) * CREEP_s <= q;
            if (flat && shown) {
                return Finding.found(new Level(level(spread), start, to));
            }
        }
        double rate = spread.slope;
        if ((Math.abs(rate) + 1.5 * spread.slopeU) * CREEP_s > Math.max(q, 1e-6)) {
            return Finding.notDetermined(String.format(
                    Locale.ROOT,
                    "the reading still creeps by %.4f mm in %.0f s: hold still until it stands",
                    Math.abs(rate) * CREEP_s,
                    CREEP_s));
        }
        Estimate level = level(spread);
        double creep = Math.abs(rate) * spread.seconds / FastMath.sqrt(12);
        return Finding.found(new Level(
                new Estimate(level.value(), FastMath.hypot(level.stdU(), creep), level.degreesOfFreedom()), start, to));
    }

    /** Mean of the level's distribution given the readings, nothing being known of it before, on a grid. */
    private Estimate level(Spread spread) {
        double q = trace.resolution_mm();
        double s = FastMath.sqrt(rounding.variance_mm2());
        double half = 0.75 * q + 6 * s / FastMath.sqrt(spread.n);
        double[] values = Arrays.copyOfRange(trace.pressed_mm(), spread.from, spread.to);
        Arrays.sort(values);
        int[] counts = runs(values);
        double[] log = new double[NODES + 1];
        double best = Double.NEGATIVE_INFINITY;
        for (int k = 0; k <= NODES; k++) {
            double at = spread.mean + half * (2.0 * k / NODES - 1);
            for (int i = 0; i < values.length; i += counts[i]) {
                double d = rounding.log(values[i] - at);
                log[k] += counts[i] * (d > logFlat + 20 ? d : logFlat + FastMath.log1p(FastMath.exp(d - logFlat)));
            }
            best = Math.max(best, log[k]);
        }
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int k = 0; k <= NODES; k++) {
            double w = FastMath.exp(log[k] - best);
            double off = half * (2.0 * k / NODES - 1);
            sum += w;
            first += w * off;
            second += w * off * off;
        }
        double mean = first / sum;
        double variance = Math.max(second / sum - mean * mean, 0);
        // Where the stretch itself is noisier than the passes were, or its noise hangs together, the grid is too sure.
        double noisier = Math.max(1, spread.perReading_mm2 / rounding.variance_mm2());
        return new Estimate(
                spread.mean + mean,
                FastMath.sqrt(variance * noisier * spread.inflation),
                Math.max(1, spread.n / spread.inflation - 1));
    }

    /** How many equal values begin at each first of them. */
    private static int[] runs(double[] sorted) {
        int[] counts = new int[sorted.length];
        int first = 0;
        for (int i = 0; i < sorted.length; i++) {
            if (sorted[i] != sorted[first]) {
                first = i;
            }
            counts[first]++;
        }
        return counts;
    }

    /** Mean, slope and spread of a stretch, spikes left out. */
    private final class Spread {
        final int from;
        final int to;
        final double n;
        final double mean;
        final double slope;
        final double slopeU;
        final double seconds;
        final double perReading_mm2;
        final double inflation;

        Spread(int from, int to) {
            this.from = from;
            this.to = to;
            double[] t = trace.time_s();
            double[] y = trace.pressed_mm();
            boolean[] spike = trace.spike();
            double origin = trace.line_mm()[(from + to) / 2];
            double far = 5 * FastMath.sqrt(rounding.variance_mm2()) + trace.noise_mm();
            double count = 0;
            double sum = 0;
            double sumT = 0;
            for (int i = from; i < to; i++) {
                if (!spike[i] && Math.abs(y[i] - trace.line_mm()[i]) < far) {
                    count++;
                    sum += y[i] - origin;
                    sumT += t[i] - t[from];
                }
            }
            n = Math.max(1, count);
            double offset = sum / n;
            double middle = sumT / n;
            double tt = 0;
            double ty = 0;
            for (int i = from; i < to; i++) {
                if (!spike[i] && Math.abs(y[i] - trace.line_mm()[i]) < far) {
                    double dt = t[i] - t[from] - middle;
                    tt += dt * dt;
                    ty += dt * (y[i] - origin - offset);
                }
            }
            slope = tt > 0 ? ty / tt : 0;
            double squares = 0;
            double products = 0;
            double before = 0;
            for (int i = from; i < to; i++) {
                if (!spike[i] && Math.abs(y[i] - trace.line_mm()[i]) < far) {
                    double r = y[i] - origin - offset - slope * (t[i] - t[from] - middle);
                    squares += r * r;
                    products += r * before;
                    before = r;
                }
            }
            double q = trace.resolution_mm();
            perReading_mm2 = Math.max(squares / Math.max(1, n - 2), q * q / 12);
            double lagOne = squares > 0 ? Math.max(0, Math.min(0.95, products / squares)) : 0;
            // Chance correlation is not memory.
            double seen = n > 8 && lagOne > 2.2 / FastMath.sqrt(n) ? lagOne : 0;
            inflation = (1 + seen) / (1 - seen);
            mean = origin + offset;
            seconds = t[to - 1] - t[from];
            slopeU = tt > 0 ? FastMath.sqrt(perReading_mm2 * inflation / tt) : 0;
        }

        /** Whether the first third stands elsewhere than the rest. */
        boolean bent() {
            int third = from + (to - from) / 3;
            if (third - from < 2) {
                return false;
            }
            Spread head = new Spread(from, third);
            Spread tail = new Spread(third, to);
            double u = FastMath.sqrt(perReading_mm2 * inflation * (1 / head.n + 1 / tail.n));
            return Math.abs(head.mean - tail.mean) > Math.max(SEEN * u, 0.1 * trace.resolution_mm());
        }
    }
}
