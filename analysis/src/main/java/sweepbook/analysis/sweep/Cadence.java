package sweepbook.analysis.sweep;

import java.util.Arrays;

/**
 * The device's own cadence behind readings that arrive in groups with one time, or that a slow display sends several
 * times.
 */
final class Cadence {
    private static final int FEWEST_TIMES = 16;
    /** A time so far off the cadence, in cycles, is uneven. */
    private static final double UNEVEN = 0.1;
    /** With so many uneven times the link is at fault rather than a loss here and there. */
    private static final double UNEVEN_SHARE = 0.2;
    /** Departures below this part of a cycle count alike: the times of the link's own timer fall on a lattice too. */
    private static final double FLOOR = 0.1;
    /** So many readings are enough to find the cycle in. */
    private static final int SEARCHED = 600;
    /** So many groups tell their usual step; of more, every second or third is taken. */
    private static final int MOST_GROUPS = 1 << 12;
    /** At least this share of the readings arrives. */
    private static final double MOST_LOST = 0.65;
    /** Standard deviation from an even cadence, in the longest usual delays. */
    private static final double KEEPS_PACE = 0.45;

    /** No display sends a value more often than this. */
    static final int MOST_REPEATS = 8;

    private static final int FEWEST_CHANGES = 12;
    /** Neighbours that both change, among all changes of a slow display: what a loss or a spike makes of it. */
    private static final double MOST_AT_ONCE = 0.05;

    /** In resolutions: a lone reading so far off is a spike where the display repeats itself. */
    private static final double LONE = 3.5;

    private Cadence() {}

    /**
     * Readings on the device's own cadence.
     *
     * @param repeats how often the display sent each of them
     */
    record Restored(ReadingStore.Entries entries, int repeats) {}

    static Restored restored(ReadingStore.Entries entries, double resolution_mm) {
        return fresh(spread(entries), LONE * resolution_mm);
    }

    /** Puts the readings back on the device's even cadence where the link has delayed them unevenly. */
    private static ReadingStore.Entries spread(ReadingStore.Entries entries) {
        double[] t = entries.time_s();
        int n = t.length;
        if (n < FEWEST_TIMES) {
            return entries;
        }
        double step_s = step_s(t);
        int uneven = 0;
        double[] gaps = new double[n];
        int groups = 0;
        for (int i = 1; i < n; i++) {
            double gap = t[i] - t[i - 1];
            uneven += Math.abs(gap - step_s) > UNEVEN * step_s ? 1 : 0;
            if (gap > 0) {
                gaps[groups++] = gap;
            }
        }
        if (uneven < UNEVEN_SHARE * n || !(step_s > 0)) {
            return entries;
        }
        Arrays.sort(gaps, 0, groups);
        double latest = Math.max(step_s, gaps[(int) (0.9 * groups)]);
        double[] line = {t[0], cycle_s(t)};
        long[] count = new long[n];
        for (double gain : new double[] {0.05, 0.02, 0.01}) {
            follow(t, line[1], gain, count);
            line = line(t, count);
        }
        double squares = 0;
        double[] even = new double[n];
        for (int i = 0; i < n; i++) {
            even[i] = line[0] + line[1] * count[i];
            squares += (t[i] - even[i]) * (t[i] - even[i]);
        }
        // A device without an even cadence wanders away from any line.
        return Math.sqrt(squares / n) < KEEPS_PACE * latest
                ? new ReadingStore.Entries(even, entries.reading_mm())
                : entries;
    }

    /** The cycle that explains the times best: small departures, and few losses, each of which must be paid for. */
    private static double cycle_s(double[] all) {
        double[] t = Arrays.copyOf(all, Math.min(all.length, SEARCHED));
        double mean = (t[t.length - 1] - t[0]) / (t.length - 1);
        long[] count = new long[t.length];
        double best = mean;
        double least = Double.POSITIVE_INFINITY;
        for (double share = 1.02; share > MOST_LOST; share -= 0.002) {
            double step = share * mean;
            follow(t, step, 0.03, count);
            double[] line = line(t, count);
            double squares = 0;
            int losses = 0;
            for (int i = 0; i < t.length; i++) {
                double off = t[i] - line[0] - line[1] * count[i];
                squares += off * off;
                losses += i > 0 && count[i] > count[i - 1] + 1 ? 1 : 0;
            }
            double cost = t.length / 2.0 * Math.log(squares / t.length + FLOOR * FLOOR * mean * mean)
                    + losses * Math.log(t.length);
            if (cost < least) {
                least = cost;
                best = line[1];
            }
        }
        return best;
    }

    /** Counts the device's cycles up to each reading; what is lost shows as a delay of more than half a cycle. */
    private static void follow(double[] t, double step_s, double gain, long[] count) {
        double expected = t[0];
        count[0] = 0;
        for (int i = 1; i < t.length; i++) {
            expected += step_s;
            long lost = Math.max(0, Math.round((t[i] - expected) / step_s));
            // Readings of one group are late one after the other: only its last can tell of a loss.
            if (i + 1 < t.length && t[i + 1] == t[i]) {
                lost = t[i] == t[i - 1] ? 0 : Math.max(0, lost - groupSize(t, i));
            }
            expected += lost * step_s;
            count[i] = count[i - 1] + 1 + lost;
            expected += gain * (t[i] - expected);
        }
    }

    private static int groupSize(double[] t, int from) {
        int to = from;
        while (to < t.length && t[to] == t[from]) {
            to++;
        }
        return to - from;
    }

    /** Least squares line of times over counts: time of count zero, time of a cycle. */
    private static double[] line(double[] t, long[] count) {
        int n = t.length;
        double middle = 0;
        double mean = 0;
        for (int i = 0; i < n; i++) {
            middle += (double) count[i] / n;
            mean += t[i] / n;
        }
        double kk = 0;
        double kt = 0;
        for (int i = 0; i < n; i++) {
            kk += (count[i] - middle) * (count[i] - middle);
            kt += (count[i] - middle) * (t[i] - mean);
        }
        double step = kt / kk;
        return new double[] {mean - step * middle, step};
    }

    /** The usual time from reading to reading: of many groups' times over their readings the mean of the middle half. */
    private static double step_s(double[] t) {
        double[] steps = new double[t.length];
        int n = 0;
        int from = 0;
        for (int i = 1; i <= t.length; i++) {
            if (i == t.length || t[i] != t[from]) {
                if (from > 0) {
                    steps[n++] = (t[from] - t[from - 1]) / (i - from);
                }
                from = i;
            }
        }
        if (n == 0) {
            return 0;
        }
        int stride = (n + MOST_GROUPS - 1) / MOST_GROUPS;
        double[] some = new double[n / stride];
        for (int i = 0; i < some.length; i++) {
            some[i] = steps[i * stride];
        }
        Arrays.sort(some);
        // Weighing groups alike, a group of one short of its neighbours would count too much.
        int quarter = some.length / 4;
        return Arrays.stream(some, quarter, some.length - quarter).average().orElseThrow();
    }

    /** Keeps what the display showed anew, where it sends every value more than once: then no two neighbours both change. */
    private static Restored fresh(ReadingStore.Entries entries, double lone_mm) {
        double[] y = entries.reading_mm();
        int changes = 0;
        int atOnce = 0;
        int[] gaps = new int[y.length];
        int last = -MOST_REPEATS - 1;
        int n = 0;
        double shown = y.length == 0 ? 0 : y[0];
        for (int i = 1; i < y.length; i++) {
            if (y[i] != shown && !isLone(y, i, lone_mm)) {
                changes++;
                atOnce += i - last == 1 ? 1 : 0;
                if (i - last <= MOST_REPEATS) {
                    gaps[n++] = i - last;
                }
                last = i;
                shown = y[i];
            }
        }
        if (!isSlow(changes, n, atOnce)) {
            return new Restored(entries, 1);
        }
        Arrays.sort(gaps, 0, n);
        return kept(entries, gaps[n / 4], lone_mm);
    }

    /** Whether a reading stands out from both its neighbours. */
    private static boolean isLone(double[] y, int i, double lone_mm) {
        if (i + 1 >= y.length) {
            return false;
        }
        double before = y[i] - y[i - 1];
        double after = y[i] - y[i + 1];
        return before * after > 0 && Math.min(Math.abs(before), Math.abs(after)) > lone_mm;
    }

    /**
     * Whether a display sends every value more than once.
     *
     * @param changes readings that differ from the one before
     * @param close of them, those soon after another
     * @param atOnce of them, those right after another
     */
    static boolean isSlow(int changes, int close, int atOnce) {
        return changes >= FEWEST_CHANGES && close >= FEWEST_CHANGES / 2 && atOnce <= MOST_AT_ONCE * changes;
    }

    private static Restored kept(ReadingStore.Entries entries, int repeats, double lone_mm) {
        double[] t = entries.time_s();
        double[] y = entries.reading_mm();
        boolean[] fleeting = fleeting(y, lone_mm);
        double[] time = new double[t.length];
        double[] reading = new double[t.length];
        int n = 0;
        int last = 0;
        for (int i = 0; i < t.length; i++) {
            boolean anew = n == 0 || y[i] != reading[n - 1] || i - last >= repeats;
            if (anew && !fleeting[i]) {
                time[n] = t[i];
                reading[n++] = y[i];
                last = i;
            }
        }
        return new Restored(new ReadingStore.Entries(Arrays.copyOf(time, n), Arrays.copyOf(reading, n)), repeats);
    }

    /** Spikes of a display that repeats itself: seen once, and beyond what was seen more than once before and after. */
    private static boolean[] fleeting(double[] y, double lone_mm) {
        int n = y.length;
        boolean[] once = new boolean[n];
        double[] before = new double[n];
        for (int i = 0; i < n; i++) {
            once[i] = (i == 0 || y[i] != y[i - 1]) && (i == n - 1 || y[i] != y[i + 1]);
            before[i] = !once[i] || i == 0 ? y[i] : before[i - 1];
        }
        double after = n == 0 ? 0 : before[n - 1];
        boolean[] fleeting = new boolean[n];
        for (int i = n - 1; i >= 0; i--) {
            after = once[i] ? after : y[i];
            fleeting[i] = once[i]
                    && (y[i] > Math.max(before[i], after) + lone_mm || y[i] < Math.min(before[i], after) - lone_mm);
        }
        return fleeting;
    }
}
