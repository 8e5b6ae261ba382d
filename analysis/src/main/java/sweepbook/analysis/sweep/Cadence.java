package sweepbook.analysis.sweep;

import java.util.Arrays;

/**
 * The device's own cadence behind readings that arrive in groups with one time, or that a slow display sends several
 * times.
 */
final class Cadence {
    /** Groups are worth spreading where so many readings share the time of the one before. */
    private static final double GROUPED_SHARE = 0.2;

    private static final int MOST_REPEATS = 8;
    private static final int FEWEST_CHANGES = 12;
    private static final double ON_PHASE = 0.95;

    private Cadence() {}

    static ReadingStore.Entries restored(ReadingStore.Entries entries) {
        return fresh(spread(entries));
    }

    /** Spreads the readings of a group over the time they took, one cadence apart. */
    private static ReadingStore.Entries spread(ReadingStore.Entries entries) {
        double[] t = entries.time_s();
        int n = t.length;
        int shared = 0;
        for (int i = 1; i < n; i++) {
            shared += t[i] == t[i - 1] ? 1 : 0;
        }
        if (n < 8 || shared < GROUPED_SHARE * n) {
            return entries;
        }
        double step_s = step_s(t);
        double[] spread = new double[n];
        double before = t[0] - step_s;
        int from = 0;
        while (from < n) {
            int to = from + 1;
            while (to < n && t[to] == t[from]) {
                to++;
            }
            // The last of a group was taken up to one cadence before the group arrived.
            double expected = t[from] - step_s / 2;
            double last = before + (to - from) * step_s;
            double off = last - expected;
            last = Math.abs(off) <= 0.75 * step_s ? last - 0.05 * off : expected;
            for (int i = from; i < to; i++) {
                double at = last - (to - 1 - i) * step_s;
                spread[i] = i == 0 ? at : Math.max(at, spread[i - 1]);
            }
            before = last;
            from = to;
        }
        return new ReadingStore.Entries(spread, entries.reading_mm());
    }

    /** The usual time from reading to reading: the median over groups of their time over their readings. */
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
        // Weighing groups alike, a group of one short of its neighbours would count too much; the mean of the middle
        // half.
        Arrays.sort(steps, 0, n);
        double sum = 0;
        int count = 0;
        for (int i = n / 4; i < n - n / 4; i++) {
            sum += steps[i];
            count++;
        }
        return count == 0 ? 0 : sum / count;
    }

    /** Keeps the first of each run of repeats where the display shows each value a fixed number of times. */
    private static ReadingStore.Entries fresh(ReadingStore.Entries entries) {
        double[] t = entries.time_s();
        double[] y = entries.reading_mm();
        int changes = 0;
        for (int i = 1; i < y.length; i++) {
            changes += y[i] != y[i - 1] ? 1 : 0;
        }
        if (changes < FEWEST_CHANGES) {
            return entries;
        }
        for (int repeats = MOST_REPEATS; repeats > 1; repeats--) {
            int[] phases = new int[repeats];
            for (int i = 1; i < y.length; i++) {
                if (y[i] != y[i - 1]) {
                    phases[i % repeats]++;
                }
            }
            for (int phase = 0; phase < repeats; phase++) {
                if (phases[phase] >= ON_PHASE * changes) {
                    return everyNth(t, y, phase, repeats);
                }
            }
        }
        return entries;
    }

    private static ReadingStore.Entries everyNth(double[] t, double[] y, int phase, int repeats) {
        int n = (y.length - phase + repeats - 1) / repeats;
        double[] time = new double[n];
        double[] reading = new double[n];
        for (int i = 0; i < n; i++) {
            time[i] = t[phase + i * repeats];
            reading[i] = y[phase + i * repeats];
        }
        return new ReadingStore.Entries(time, reading);
    }
}
