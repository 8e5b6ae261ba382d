package sweepbook.analysis.sweep;

import org.hipparchus.special.Erf;
import org.hipparchus.util.FastMath;

/**
 * Whether a needle creeps whose noise its display hides. A level that creeps by a step in five seconds goes over an edge between
 * two digits within five seconds, and while it does the needle goes to and fro between them for a while that depends on
 * the noise: what digits were shown when tells how likely each speed, level and noise are. A click by one digit may hide in the
 * rest; then what is since then tells. Used by one thread.
 */
final class HiddenCreep {
    /** Speeds in steps a second: up to one step in five seconds counts as a level, and more as creeping. */
    private static final double[] LEVELS = {0, 0.05, -0.05, 0.11, -0.11, 0.17, -0.17};

    private static final double[] STILL = {0};

    private static final double[] CREEPS = {
        0.205, -0.205, 0.23, -0.23, 0.28, -0.28, 0.36, -0.36, 0.5, -0.5, 0.8, -0.8, 1.4, -1.4
    };
    /** In steps. */
    private static final double[] NOISES = {0.03, 0.08, 0.17, 0.3, 0.5};
    /** Places of the level within two steps. */
    private static final int PLACES = 40;

    private static final int CELLS = 14;
    /** Neighbours are somewhat alike, and a model is but a model: no more of a block than so many readings count. */
    private static final double MOST_IN_BLOCK = 8;

    /** A creep is excluded by such odds: it is looked for all the time. */
    private static final double ODDS = 0.005;

    /** In log probability: so seldom a rest holds a click, which may take back what a creep has moved. */
    private static final double CLICKED = FastMath.log(1e-3);
    /** Where the mean digit changes by less from one cell to the next nobody looks for one. */
    private static final double CLICK = 0.25;

    private static final int MOST_CLICKS = 4;

    /** In log probability below the likeliest: what counts for nothing. */
    private static final double NOTHING = 20;

    private static final double STRAY = 0.01;
    private static final int FINE = 64;
    private static final int FARTHEST = 4 * FINE;
    private static final double[][] LOG = tables();

    /** So many neighbouring digits are looked at. */
    private static final int WIDTH = 9;

    private final double[] log = new double[NOISES.length * PLACES];
    private final double[] time_s = new double[CELLS * WIDTH];
    private final double[] digits = new double[CELLS * WIDTH];
    private final double[] weight = new double[CELLS * WIDTH];
    /** Where the kinds of each cell begin, the latest cell first; and its mean digit. */
    private final int[] begins = new int[CELLS + 1];

    private final double[] mean = new double[CELLS];
    private int cells;
    /** Cells into which a click from the one before may have come, the latest first. */
    private final int[] clicks = new int[MOST_CLICKS];

    private int clicked;
    private int kinds;
    private double middle;
    private boolean told;
    private boolean stands;

    private static double[][] tables() {
        double[][] tables = new double[NOISES.length][FARTHEST + 1];
        for (int m = 0; m < NOISES.length; m++) {
            double scale = NOISES[m] * FastMath.sqrt(2);
            for (int i = 0; i <= FARTHEST; i++) {
                double off = (double) i / FINE;
                double within = Erf.erf((off - 0.5) / scale, (off + 0.5) / scale) / 2;
                tables[m][i] = FastMath.log((1 - STRAY) * within + STRAY / WIDTH);
            }
        }
        return tables;
    }

    /**
     * Takes up what the last so many blocks show; what that says is worked out when it is asked for, and not before.
     *
     * @param digit about which the needle stands
     */
    void watch(RestBlocks blocks, int back, double digit) {
        middle = digit;
        told = false;
        gather(blocks, back, Math.round(digit) - WIDTH / 2);
    }

    /** Whether what was taken up excludes a creep, as likely as not beforehand. */
    boolean stands() {
        if (!told) {
            stands = odds() < ODDS;
            told = true;
        }
        return stands;
    }

    /** How likely it is that the needle creeps, over how likely it is that it does not. */
    private double odds() {
        findClicks();
        return FastMath.exp(sinceClick(CREEPS, 0, 0) - sinceClick(LEVELS, 0, 0));
    }

    /** The greatest changes of the mean digit. */
    private void findClicks() {
        clicked = 0;
        for (int cell = 1; cell < cells; cell++) {
            int greater = 0;
            for (int other = 1; other < cells; other++) {
                greater += change(other) > change(cell) || change(other) == change(cell) && other < cell ? 1 : 0;
            }
            if (change(cell) >= CLICK && greater < MOST_CLICKS) {
                clicks[clicked++] = cell;
            }
        }
    }

    private double change(int cell) {
        return Math.abs(mean[cell] - mean[cell - 1]);
    }

    /**
     * Log likelihood of moving at some speeds from a cell back to the begin, or to one of the clicks, before which the needle stood.
     *
     * @param next click that may be met first
     */
    private double sinceClick(double[] speeds, int cell, int next) {
        double log = logLikelihood(speeds, begins[cell], kinds);
        for (int click = next; click < clicked; click++) {
            int after = clicks[click] - 1;
            int before = clicks[click] + 1;
            if (after >= cell) {
                log = added(
                        log,
                        CLICKED
                                + logLikelihood(speeds, begins[cell], begins[after])
                                + logMixed(after)
                                + logMixed(after + 1)
                                + sinceClick(STILL, before, click + 1));
            }
        }
        return log;
    }

    /** Of a cell of which nothing is known but how often each digit came. */
    private double logMixed(int cell) {
        double all = 0;
        double sum = 0;
        for (int i = begins[cell]; i < begins[cell + 1]; i++) {
            all += weight[i];
            sum += weight[i] * FastMath.log(weight[i]);
        }
        return sum - all * FastMath.log(all) - FastMath.log(1 + all);
    }

    /** Collects how often which digit was shown when. */
    private void gather(RestBlocks blocks, int back, long lowest) {
        int each = (back + CELLS - 1) / CELLS;
        kinds = 0;
        cells = 0;
        for (int first = 1; first <= back; first += each) {
            int last = Math.min(back, first + each - 1);
            int begin = kinds;
            double readings = 0;
            for (long digit = lowest; digit < lowest + WIDTH; digit++) {
                int shown = 0;
                for (int b = first; b <= last; b++) {
                    shown += blocks.shown(b, digit);
                }
                if (shown > 0) {
                    time_s[kinds] = -RestBlocks.BLOCK_s * (first - 1 + last) / 2;
                    digits[kinds] = digit;
                    weight[kinds++] = shown;
                    readings += shown;
                }
            }
            if (kinds == begin) {
                continue;
            }
            begins[cells] = begin;
            mean[cells] = 0;
            for (int i = begin; i < kinds; i++) {
                mean[cells] += digits[i] * weight[i] / readings;
            }
            begins[++cells] = kinds;
            double most = MOST_IN_BLOCK * (last - first + 1);
            for (int i = begin; readings > most && i < kinds; i++) {
                weight[i] *= most / readings;
            }
        }
    }

    /** Of some kinds, over speeds that are as likely as each other, and over all levels and noises. */
    private double logLikelihood(double[] speeds, int from, int to) {
        double sum = Double.NEGATIVE_INFINITY;
        for (double speed : speeds) {
            sum = added(sum, logLikelihood(speed, from, to));
        }
        return sum - FastMath.log(speeds.length);
    }

    private double logLikelihood(double speed, int from, int to) {
        double best = Double.NEGATIVE_INFINITY;
        int at = 0;
        for (double[] table : LOG) {
            for (int place = 0; place < PLACES; place++) {
                double now = middle + (2.0 * place + 1) / PLACES - 1;
                double sum = 0;
                // What is unlikely already grows no likelier.
                for (int i = from; i < to && sum > best - NOTHING; i++) {
                    double off = Math.abs(digits[i] - now - speed * time_s[i]) * FINE + 0.5;
                    sum += weight[i] * table[off < FARTHEST ? (int) off : FARTHEST];
                }
                log[at++] = sum;
                best = Math.max(best, sum);
            }
        }
        double total = 0;
        for (double l : log) {
            total += l > best - NOTHING ? FastMath.exp(l - best) : 0;
        }
        return best + FastMath.log(total / log.length);
    }

    private static double added(double a, double b) {
        double greater = Math.max(a, b);
        return greater + FastMath.log1p(FastMath.exp(Math.min(a, b) - greater));
    }
}
