package sweepbook.analysis.sweep;

import java.util.Arrays;
import org.hipparchus.util.FastMath;

/**
 * The readings of a pass in clicks: the axis stands, steps on by one click, stands again. Which click it stands at is hidden; the
 * likelihood of the crest, the contact's curvature and the size of a click is summed over all ways to count them (a hidden Markov
 * chain that only goes forward, by the forward-backward recursion).
 */
final class ClickChain {
    /** Steps of equal chance that make a click: waits are more regular than chance. */
    private static final int PHASES = Integer.getInteger("phases", 4);

    /** A hand now and then rests for some waits. */
    private static final double PAUSES = Double.parseDouble(System.getProperty("pauses", "0.03"));

    private static final double LONGER = 4;
    private static final int CELLS = PHASES + 1;
    /** Readings that are on no level: spikes, and what was read in the midst of a click. */
    private static final double ASTRAY = 0.05;
    /** Less probable ways than this are dropped. */
    private static final double NEGLIGIBLE = 1e-13;

    private static final double STEEPEST = 0.95;
    static final int PARAMETERS = 4;

    private final PassReadings readings;
    private final Rounding rounding;
    private final double perSecond;
    private final double flat;

    /**
     * @param perSecond clicks of the hand
     */
    ClickChain(PassReadings readings, Rounding rounding, double perSecond) {
        this.readings = readings;
        this.rounding = rounding;
        this.perSecond = perSecond;
        flat = ASTRAY / (2 * Math.max(readings.fall_mm(), 8 * FastMath.sqrt(rounding.variance_mm2())));
    }

    /**
     * What the readings say of the crest h, the curvature g, and distances from the crest of o + k c.
     *
     * @param log their likelihood, the derivative of it, and the information that they would hold if the counts were known
     * @param counts expected clicks at each reading
     */
    record Said(double log, double[] gradient, double[][] information, double[] counts) {}

    /** Probabilities of cells from one (inclusive) to another (exclusive). */
    private record Band(int from, int to, double[] share) {}

    Said said(double[] p) {
        int n = readings.size();
        double reach = FastMath.sqrt(1.3 * readings.fall_mm()) + 2 * p[3];
        int low = (int) FastMath.floor((-reach - p[2]) / p[3]);
        int states = (int) FastMath.ceil(2 * reach / p[3]) + 1;
        int cells = states * CELLS;
        double[] level = new double[states];
        double[] root = new double[states];
        for (int k = 0; k < states; k++) {
            double u = p[2] + (low + k) * p[3];
            root[k] = FastMath.sqrt(Math.max(1 - STEEPEST, 1 - 4 * p[1] * u * u));
            level[k] = p[0] - 2 * u * u / (1 + root[k]);
        }
        double rate = PHASES * perSecond;
        double leaves = 1.0 / (LONGER * PHASES);
        double[][] jumps = new double[n][];
        Band[] forward = new Band[n];
        double log = 0;
        double[] seen = new double[states];
        for (int i = 0; i < n; i++) {
            Band before;
            if (i == 0) {
                int crest = Math.min(states, Math.max(1, (int) Math.rint(-p[2] / p[3]) - low + 1));
                double[] even = new double[crest * CELLS];
                Arrays.fill(even, 1);
                before = new Band(0, even.length, even);
            } else {
                jumps[i] = poisson(rate * Math.max(readings.at_s(i) - readings.at_s(i - 1), 1e-6));
                before = walk(forward[i - 1], jumps[i], cells, leaves);
            }
            double sum = 0;
            double[] share = before.share;
            int last = -1;
            double s = 0;
            for (int c = before.from; c < before.to; c++) {
                int k = c / CELLS;
                if (k != last) {
                    s = seen(readings.pressed_mm[i] - level[k]);
                    last = k;
                }
                share[c - before.from] *= s;
                sum += share[c - before.from];
            }
            log += Math.log(sum);
            int from = before.from;
            int to = before.to;
            double least = NEGLIGIBLE * sum;
            while (from < to - 1 && share[from - before.from] < least) {
                from++;
            }
            while (to > from + 1 && share[to - 1 - before.from] < least) {
                to--;
            }
            double[] kept = Arrays.copyOfRange(share, from - before.from, to - before.from);
            for (int c = 0; c < kept.length; c++) {
                kept[c] /= sum;
            }
            forward[i] = new Band(from, to, kept);
        }
        double[] gradient = new double[PARAMETERS];
        double[][] information = new double[PARAMETERS][PARAMETERS];
        double[] counts = new double[n];
        double[] backward = new double[forward[n - 1].share.length];
        Arrays.fill(backward, 1);
        double[] d = new double[PARAMETERS];
        for (int i = n - 1; i >= 0; i--) {
            Band at = forward[i];
            double sum = 0;
            for (int c = 0; c < backward.length; c++) {
                sum += at.share[c] * backward[c];
            }
            double mean = 0;
            int c = at.from;
            while (c < at.to) {
                int k = c / CELLS;
                double share = 0;
                for (; c < at.to && c / CELLS == k; c++) {
                    share += at.share[c - at.from] * backward[c - at.from];
                }
                share /= sum;
                mean += share * (low + k);
                Rounding.Said said = rounding.said(readings.pressed_mm[i] - level[k]);
                double density = (1 - ASTRAY) * Math.exp(said.log());
                double belongs = share * density / (density + flat);
                double u = p[2] + (low + k) * p[3];
                double z = p[0] - level[k];
                d[0] = 1;
                d[1] = -z * z / root[k];
                d[2] = -2 * u / root[k];
                d[3] = d[2] * (low + k);
                for (int a = 0; a < PARAMETERS; a++) {
                    gradient[a] += belongs * said.score() * d[a];
                    for (int b = 0; b < PARAMETERS; b++) {
                        information[a][b] += belongs * said.information() * d[a] * d[b];
                    }
                }
            }
            counts[i] = i < n - 1 ? Math.min(mean, counts[i + 1]) : mean;
            if (i > 0) {
                double[] weighted = new double[backward.length];
                double total = 0;
                int last = -1;
                double s = 0;
                for (int x = 0; x < weighted.length; x++) {
                    int k = (at.from + x) / CELLS;
                    if (k != last) {
                        s = seen(readings.pressed_mm[i] - level[k]);
                        last = k;
                    }
                    weighted[x] = backward[x] * s;
                    total = Math.max(total, weighted[x]);
                }
                for (int x = 0; x < weighted.length; x++) {
                    weighted[x] /= total;
                }
                backward = back(new Band(at.from, at.to, weighted), jumps[i], forward[i - 1], leaves);
            }
        }
        return new Said(log, gradient, information, counts);
    }

    private double seen(double off_mm) {
        return (1 - ASTRAY) * Math.exp(rounding.log(off_mm)) + flat;
    }

    /** On from one reading to the next: so many steps with such a chance. */
    private static Band walk(Band at, double[] jumps, int cells, double leaves) {
        int from = at.from / CELLS * CELLS;
        int reach = Math.min(cells, ((at.to + jumps.length) / CELLS + 2) * CELLS);
        double[] v = new double[reach - from];
        System.arraycopy(at.share, 0, v, at.from - from, at.share.length);
        double[] sum = new double[v.length];
        for (int j = 0; ; j++) {
            for (int c = 0; c < v.length; c++) {
                sum[c] += jumps[j] * v[c];
            }
            if (j == jumps.length - 1) {
                return new Band(from, reach, sum);
            }
            double[] next = new double[v.length];
            for (int c = 0; c < v.length; c++) {
                int phase = c % CELLS;
                if (phase < PHASES - 1) {
                    next[c + 1] += v[c];
                } else if (phase == PHASES - 1) {
                    if (c + 2 < v.length) {
                        next[c + 2] += (1 - PAUSES) * v[c];
                        next[c + 1 + CELLS] += PAUSES * v[c];
                    }
                } else {
                    next[c] += (1 - leaves) * v[c];
                    next[c - PHASES] += leaves * v[c];
                }
            }
            v = next;
        }
    }

    /** Chances of all that follows, from one reading back to those cells of the one before. */
    private static double[] back(Band after, double[] jumps, Band before, double leaves) {
        int from = before.from / CELLS * CELLS;
        int reach = Math.max(after.to, before.to);
        reach = (reach + CELLS - 1) / CELLS * CELLS;
        double[] v = new double[reach - from];
        System.arraycopy(after.share, 0, v, after.from - from, after.share.length);
        double[] sum = new double[v.length];
        for (int j = 0; ; j++) {
            for (int c = 0; c < v.length; c++) {
                sum[c] += jumps[j] * v[c];
            }
            if (j == jumps.length - 1) {
                return Arrays.copyOfRange(sum, before.from - from, before.to - from);
            }
            double[] next = new double[v.length];
            for (int c = 0; c < v.length; c++) {
                int phase = c % CELLS;
                if (phase < PHASES - 1) {
                    next[c] = v[c + 1];
                } else if (phase == PHASES - 1) {
                    if (c + 2 < v.length) {
                        next[c] = (1 - PAUSES) * v[c + 2] + PAUSES * v[c + 1 + CELLS];
                    }
                } else {
                    next[c] = (1 - leaves) * v[c] + leaves * v[c - PHASES];
                }
            }
            v = next;
        }
    }

    private static double[] poisson(double mean) {
        // What is left beyond is less than one in ten thousand.
        double[] p = new double[(int) (2 + mean + 4 * FastMath.sqrt(mean))];
        p[0] = FastMath.exp(-mean);
        for (int j = 1; j < p.length; j++) {
            p[j] = p[j - 1] * mean / j;
        }
        return p;
    }
}
