package sweepbook.analysis.sweep;

import java.util.Arrays;

/**
 * Sums over the latest readings of a rest in blocks of a quarter of a second, and how often each digit was shown in each:
 * any span of whole blocks up to now is summed in constant time. Used by one thread.
 */
final class RestBlocks {
    static final double BLOCK_s = 0.25;
    /** Half a minute: with less nobody is kept waiting, and more tells of a past that need not matter. */
    static final int MOST = 128;
    /** So many neighbouring digits are told apart; what lies so many further counts like it. */
    static final int DIGITS = 16;

    // By block, in a ring; times since its begin, lengths about the first reading of the rest.
    private final double[] count = new double[MOST];
    private final double[] sumT = new double[MOST];
    private final double[] sumY = new double[MOST];
    private final double[] sumTT = new double[MOST];
    private final double[] sumTY = new double[MOST];
    private final double[] sumYY = new double[MOST];
    private final double[] sumYBefore = new double[MOST];
    private final int[] shown = new int[MOST * DIGITS];

    // Over the last so many blocks but for the one that still fills; times before the end of that.
    private final double[] n = new double[MOST + 1];
    private final double[] t = new double[MOST + 1];
    private final double[] y = new double[MOST + 1];
    private final double[] tt = new double[MOST + 1];
    private final double[] ty = new double[MOST + 1];
    private final double[] yy = new double[MOST + 1];
    private final double[] yBefore = new double[MOST + 1];

    private double origin_s;
    private double origin_mm;
    private double last_mm;
    private long block;

    /** Forgets what was, and begins with a first reading. */
    void start(double time_s, double reading_mm) {
        origin_s = time_s;
        origin_mm = reading_mm;
        last_mm = 0;
        block = 0;
        clear(0);
    }

    void add(double time_s, double reading_mm, double step_mm) {
        long current = (long) ((time_s - origin_s) * (1 / BLOCK_s));
        if (current > block) {
            // Blocks in which nothing came stay empty; a gap longer than the ring clears all of it.
            for (long next = Math.max(block + 1, current - MOST + 1); next <= current; next++) {
                clear((int) (next % MOST));
            }
            block = current;
            sum();
        }
        int slot = (int) (block % MOST);
        double since_s = time_s - origin_s - block * BLOCK_s;
        double off_mm = reading_mm - origin_mm;
        count[slot]++;
        sumT[slot] += since_s;
        sumY[slot] += off_mm;
        sumTT[slot] += since_s * since_s;
        sumTY[slot] += since_s * off_mm;
        sumYY[slot] += off_mm * off_mm;
        sumYBefore[slot] += off_mm * last_mm;
        last_mm = off_mm;
        long digit = step_mm > 0 ? (long) Math.rint(off_mm / step_mm) : 0;
        shown[place(slot, digit)]++;
    }

    private void clear(int slot) {
        count[slot] = 0;
        sumT[slot] = 0;
        sumY[slot] = 0;
        sumTT[slot] = 0;
        sumTY[slot] = 0;
        sumYY[slot] = 0;
        sumYBefore[slot] = 0;
        Arrays.fill(shown, slot * DIGITS, (slot + 1) * DIGITS, 0);
    }

    /** Blocks that are kept, the one that still fills among them. */
    int size() {
        return (int) Math.min(block + 1, MOST);
    }

    /** When the last so many blocks began. */
    double begin_s(int back) {
        return origin_s + (block + 1 - back) * BLOCK_s;
    }

    /** Sums up anew when a block has begun. */
    private void sum() {
        for (int back = 2; back <= size(); back++) {
            int slot = slot(back);
            double begin_s = -back * BLOCK_s;
            int less = back - 1;
            n[back] = n[less] + count[slot];
            t[back] = t[less] + sumT[slot] + count[slot] * begin_s;
            y[back] = y[less] + sumY[slot];
            tt[back] = tt[less] + sumTT[slot] + begin_s * (2 * sumT[slot] + count[slot] * begin_s);
            ty[back] = ty[less] + sumTY[slot] + begin_s * sumY[slot];
            yy[back] = yy[less] + sumYY[slot];
            yBefore[back] = yBefore[less] + sumYBefore[slot];
        }
    }

    private int slot(int back) {
        return (int) ((block + 1 - back) % MOST);
    }

    /** Readings in the last so many blocks. */
    double readings(int back) {
        return n[back] + count[slot(1)];
    }

    /** How often a digit, counted from that of the first reading, was shown in the block so many back; 1 is the last. */
    int shown(int back, long digit) {
        return shown[place(slot(back), digit)];
    }

    private static int place(int slot, long digit) {
        return slot * DIGITS + (int) (digit & DIGITS - 1);
    }

    /** The digit of a level, counted from that of the first reading. */
    double digit(double level_mm, double step_mm) {
        return (level_mm - origin_mm) / step_mm;
    }

    /** A line through the readings of a span, worked out again for each; used by one thread. */
    static final class Line {
        double readings;
        double slope_mm_per_s;
        /** Squares about it. */
        double squares_mm2;
        /** Of the times. */
        double spread_s2;
        /** How alike neighbours are: the correlation of a reading with that before it. */
        double alike;
    }

    /** The line through the blocks from so many back (inclusive) to so many back (exclusive). */
    void fit(int from, int to, Line line) {
        double k = n[from] - n[to];
        double st = t[from] - t[to];
        double sy = y[from] - y[to];
        double stt = tt[from] - tt[to];
        double sty = ty[from] - ty[to];
        double syy = yy[from] - yy[to];
        double products = yBefore[from] - yBefore[to];
        if (to == 0) {
            int slot = slot(1);
            k += count[slot];
            st += sumT[slot] - count[slot] * BLOCK_s;
            sy += sumY[slot];
            stt += sumTT[slot] - BLOCK_s * (2 * sumT[slot] - count[slot] * BLOCK_s);
            sty += sumTY[slot] - BLOCK_s * sumY[slot];
            syy += sumYY[slot];
            products += sumYBefore[slot];
        }
        double ctt = Math.max(stt - st * st / k, 1e-12);
        double cty = sty - st * sy / k;
        double cyy = Math.max(0, syy - sy * sy / k);
        line.readings = k;
        line.spread_s2 = ctt;
        line.slope_mm_per_s = k > 1 ? cty / ctt : 0;
        line.squares_mm2 = Math.max(0, cyy - line.slope_mm_per_s * cty);
        double alike = products - sy * sy / k - line.slope_mm_per_s * cty;
        line.alike = line.squares_mm2 > 1e-18 ? alike / line.squares_mm2 : 0;
    }
}
