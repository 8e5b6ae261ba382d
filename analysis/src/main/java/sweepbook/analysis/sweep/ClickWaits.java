package sweepbook.analysis.sweep;

import java.util.Arrays;
import org.hipparchus.util.FastMath;

/**
 * How a hand may click on from one reading to the next. A wait is so many phases of equal chance, as waits are more regular than
 * chance; now and then a hand rests first, for some waits.
 */
final class ClickWaits {
    private static final int PHASES = 8;
    private static final int REST = PHASES;
    private static final int CELLS = PHASES + 1;
    /** Share of the clicks after which the hand rests. */
    private static final double RESTS = 0.05;
    /** How long, in waits. */
    private static final double LONGER = 4;

    private static final double RESTS_NO_MORE = 1 / (LONGER * PHASES);

    private final double[] jumps;

    /**
     * @param clicks usual number of clicks from the one reading to the next
     */
    ClickWaits(double clicks) {
        double mean = PHASES * clicks;
        // What is left beyond is less than one in ten thousand.
        jumps = new double[(int) (2 + mean + 4 * FastMath.sqrt(mean))];
        jumps[0] = FastMath.exp(-mean);
        for (int j = 1; j < jumps.length; j++) {
            jumps[j] = jumps[j - 1] * mean / j;
        }
    }

    /** Chances, in turn for each phase of each click, from a cell on. */
    record Band(int from, double[] share) {
        /** The click of the band's own cell. */
        int click(int cell) {
            return (from + cell) / CELLS;
        }

        /** Without the ends that are less than so much, and all times a factor. */
        Band within(double least, double factor) {
            int first = 0;
            int last = share.length;
            while (first < last - 1 && share[first] < least) {
                first++;
            }
            while (last > first + 1 && share[last - 1] < least) {
                last--;
            }
            double[] kept = Arrays.copyOfRange(share, first, last);
            for (int c = 0; c < kept.length; c++) {
                kept[c] *= factor;
            }
            return new Band(from + first, kept);
        }

        /** The same chances among the cells of whole clicks up to one. */
        double[] spread(int firstClick, int beyond) {
            double[] cells = new double[(beyond - firstClick) * CELLS];
            for (int c = 0; c < share.length; c++) {
                cells[from - firstClick * CELLS + c] = share[c];
            }
            return cells;
        }
    }

    /** Any phase of any of the first so many clicks. */
    static Band anywhere(int clicks) {
        double[] share = new double[clicks * CELLS];
        Arrays.fill(share, 1);
        return new Band(0, share);
    }

    /** Where the hand may be at the next reading. */
    Band forward(Band at, int clicks) {
        int first = at.click(0);
        int beyond = Math.min(clicks, at.click(at.share.length - 1) + jumps.length / PHASES + 2);
        double[] chance = at.spread(first, beyond);
        double[] sum = new double[chance.length];
        double[] next = new double[chance.length];
        for (double jump : jumps) {
            add(jump, chance, sum);
            double lastPhase = 0;
            for (int click = 0; click < chance.length; click += CELLS) {
                double rest = chance[click + REST];
                next[click] = (1 - RESTS) * lastPhase + RESTS_NO_MORE * rest;
                next[click + REST] = RESTS * lastPhase + (1 - RESTS_NO_MORE) * rest;
                for (int c = click; c < click + PHASES - 1; c++) {
                    next[c + 1] = chance[c];
                }
                lastPhase = chance[click + PHASES - 1];
            }
            double[] done = chance;
            chance = next;
            next = done;
        }
        return new Band(first * CELLS, sum);
    }

    /** Chances of what was seen later, from the cells of the reading before. */
    double[] backward(Band later, Band before) {
        int first = before.click(0);
        int beyond = Math.max(later.click(later.share.length - 1), before.click(before.share.length - 1)) + 1;
        double[] chance = later.spread(first, beyond);
        double[] sum = new double[chance.length];
        double[] next = new double[chance.length];
        for (double jump : jumps) {
            add(jump, chance, sum);
            double onwards = 0;
            for (int click = chance.length - CELLS; click >= 0; click -= CELLS) {
                for (int c = click; c < click + PHASES - 1; c++) {
                    next[c] = chance[c + 1];
                }
                next[click + PHASES - 1] = onwards;
                next[click + REST] = (1 - RESTS_NO_MORE) * chance[click + REST] + RESTS_NO_MORE * chance[click];
                onwards = (1 - RESTS) * chance[click] + RESTS * chance[click + REST];
            }
            double[] done = chance;
            chance = next;
            next = done;
        }
        int from = before.from - first * CELLS;
        return Arrays.copyOfRange(sum, from, from + before.share.length);
    }

    private static void add(double factor, double[] chance, double[] sum) {
        for (int c = 0; c < sum.length; c++) {
            sum[c] += factor * chance[c];
        }
    }
}
