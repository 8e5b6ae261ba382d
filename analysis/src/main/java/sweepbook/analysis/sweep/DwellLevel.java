package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
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

    private static final double SEEN = 2.5;
    private static final double SURE = 2.6;
    /** 95 % of a normal distribution lie within so many standard deviations. */
    private static final double NORMAL = 1.959964;

    private static final int FEWEST = 4;
    private static final int CUTS = 12;
    private static final int NODES = 200;
    /** Readings no farther apart than this part of a step are taken for equal where a drift or a mean has moved them off the digits. */
    private static final double SAME = 1e-3;
    /** Where one moment of the stand's settling after a jog is not seen, it is left out unseen: this part, at most so long. */
    private static final double UNSEEN = 0.1;

    static final double UNSEEN_s = 0.5;
    /** A rest shorter than this has to show that it does not creep. */
    private static final double SHORT_s = 2;

    private final CleanTrace trace;
    private final LengthWords words;
    private final double reading_mm2;
    private final List<HiddenNoise> noises;

    /** The dwell's readings are as noisy as those of the passes. */
    DwellLevel(CleanTrace trace, LengthWords words, double noise_mm) {
        this.trace = trace;
        this.words = words;
        double q = trace.resolution_mm();
        reading_mm2 = Math.max(noise_mm * noise_mm, 1e-18) + q * q / 12;
        noises = HiddenNoise.like(noise_mm, q);
    }

    /** The part of a stretch that stands, readings from (inclusive) to (exclusive), and how fast it is seen to move on; 0 mostly. */
    record Level(Estimate level, int from, int to, double slope_mm_per_s) {}

    /** The level of all readings of a stretch, creeping or not. */
    Level all(int from, int to) {
        Spread spread = new Spread(from, to);
        return new Level(level(spread), from, to, spread.seenSlope());
    }

    /** The slope of a stretch in its standard uncertainties; 0 where there are too few readings. */
    double slope(int from, int to) {
        Spread spread = new Spread(from, to);
        return to - from < FEWEST || spread.slopeU == 0 ? 0 : spread.slope / spread.slopeU;
    }

    /** The level of the longest tail that stands; not determined while it creeps. */
    Finding<Level> settled(int from, int to) {
        if (to - from < FEWEST) {
            return Finding.notDetermined("only " + (to - from) + " readings at rest: hold still for longer");
        }
        double q = trace.resolution_mm();
        double rest_s = trace.time_s()[to - 1] - trace.time_s()[from];
        int first = after(from, Math.min(UNSEEN * rest_s, UNSEEN_s));
        Spread whole = new Spread(first, to);
        boolean creeping = Math.abs(whole.slope) * CREEP_s > q;
        for (int cut = 0; cut < CUTS; cut++) {
            int start = first + (to - first) * cut / (CUTS + 4);
            if (to - start < FEWEST) {
                break;
            }
            Spread spread = cut == 0 ? new Spread(first, to) : new Spread(start, to);
            double rate = Math.abs(spread.slope);
            boolean flat = rate <= Math.max(SEEN * spread.slopeU, q / CREEP_s) && !spread.bent();
            // What is left of a stretch that moved has to show that it does not, and so has a short one.
            double doubt = creeping && cut > 0 ? 2 : spread.seconds < SHORT_s ? 1 : 0;
            if (flat && (doubt == 0 || (rate + doubt * spread.slopeU) * CREEP_s <= q)) {
                return Finding.found(new Level(level(spread), start, to, spread.seenSlope()));
            }
        }
        // Nothing of it is flat: how fast it still moves is told by its last half.
        Spread half = new Spread((from + to) / 2, to);
        Spread last = rest_s < SHORT_s ? whole : half;
        double creep = Math.abs(last.slope);
        if (creep * CREEP_s > q && creep > SURE * last.slopeU) {
            return Finding.notDetermined("the reading still creeps by " + words.of(creep * CREEP_s)
                    + " in five seconds: hold still until it stands");
        }
        if (rest_s < SHORT_s) {
            return Finding.notDetermined("the trace ends before the reading stands: hold still for longer at the end");
        }
        Estimate level = level(half);
        double moved = Math.max(creep, half.slopeU) * half.seconds / FastMath.sqrt(12);
        if (moved > q) {
            return Finding.notDetermined("the reading does not come to rest: hold still, and look for what shakes it");
        }
        return Finding.found(new Level(
                new Estimate(level.value(), FastMath.hypot(level.stdU(), moved), level.degreesOfFreedom()),
                half.from,
                to,
                half.seenSlope()));
    }

    private int after(int from, double wait_s) {
        int i = from;
        while (trace.time_s()[i] < trace.time_s()[from] + wait_s) {
            i++;
        }
        return i;
    }

    /**
     * Mean of the level's distribution given the readings, nothing being known of it before, on a grid. Where the display
     * hides the noise, how near the level lies to the edge of a digit depends on a noise that nobody knows: its
     * distribution is averaged over.
     */
    private Estimate level(Spread spread) {
        double q = trace.resolution_mm();
        double[] values = Arrays.copyOfRange(trace.pressed_mm(), spread.from, spread.to);
        Arrays.sort(values);
        int[] counts = runs(values, SAME * q);
        double half = 0.75 * q + 6 * FastMath.sqrt(reading_mm2 / spread.n);
        double[] log = new double[(NODES + 1) * noises.size()];
        double best = Double.NEGATIVE_INFINITY;
        for (int m = 0; m < noises.size(); m++) {
            for (int k = 0; k <= NODES; k++) {
                double at = spread.mean + half * (2.0 * k / NODES - 1);
                double sum = noises.get(m).log(values, counts, at);
                log[m * (NODES + 1) + k] = sum;
                best = Math.max(best, sum);
            }
        }
        double[] density = new double[NODES + 1];
        double sum = 0;
        double first = 0;
        for (int i = 0; i < log.length; i++) {
            double w = FastMath.exp(log[i] - best);
            density[i % (NODES + 1)] += w;
            sum += w;
            first += w * off(i % (NODES + 1), half);
        }
        double mean = first / sum;
        double second = 0;
        for (int k = 0; k <= NODES; k++) {
            second += density[k] / sum * (off(k, half) - mean) * (off(k, half) - mean);
        }
        // Where the stretch itself is noisier than the passes were, or its noise hangs together, the grid is too sure.
        double noisier = Math.max(1, spread.perReading_mm2 / reading_mm2) * spread.inflation;
        double stdU = FastMath.sqrt(second * noisier);
        // A needle that never left its digit may have no noise at all (GUM F.2.2.1).
        if (counts[0] == values.length && stdU < q / FastMath.sqrt(12)) {
            return new Estimate(spread.mean + mean, q / FastMath.sqrt(12), Double.POSITIVE_INFINITY, Estimate.EVEN);
        }
        return new Estimate(
                spread.mean + mean,
                stdU,
                Math.max(1, spread.n / spread.inflation - 1),
                breadth(density, sum, mean, half));
    }

    private static double off(int node, double half) {
        return half * (2.0 * node / NODES - 1);
    }

    /** How far about the mean 95 % of a distribution on the grid reach, over how far they would if it were normal. */
    private static double breadth(double[] density, double sum, double mean, double half) {
        double variance = 0;
        double[] away = new double[density.length];
        Integer[] byDistance = new Integer[density.length];
        for (int k = 0; k < density.length; k++) {
            away[k] = Math.abs(off(k, half) - mean);
            byDistance[k] = k;
            variance += density[k] / sum * away[k] * away[k];
        }
        Arrays.sort(byDistance, Comparator.comparingDouble(k -> away[k]));
        double within = 0;
        int last = 0;
        while (within < 0.95 * sum && last < density.length) {
            within += density[byDistance[last++]];
        }
        double reach = away[byDistance[last - 1]] / FastMath.sqrt(variance) / NORMAL;
        return Math.max(Estimate.EVEN, Math.min(1.2, reach));
    }

    /** How many equal values, or nearly so, begin at each first of them. */
    private static int[] runs(double[] sorted, double same_mm) {
        int[] counts = new int[sorted.length];
        int first = 0;
        for (int i = 0; i < sorted.length; i++) {
            if (sorted[i] - sorted[first] > same_mm) {
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
            double far = 5 * FastMath.sqrt(reading_mm2) + trace.noise_mm();
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

        double seenSlope() {
            return Math.abs(slope) > SEEN * slopeU ? slope : 0;
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
            return Math.abs(head.mean - tail.mean) > Math.max(3 * u, 0.1 * trace.resolution_mm());
        }
    }
}
