package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.stream.IntStream;

/** What a slow display shows anew, of readings that it sends several times, on the device's own even pace. */
final class Cadence {
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
        double[] even = Pace.evened(entries.time_s());
        return fresh(new ReadingStore.Entries(even, entries.reading_mm()), resolution_mm);
    }

    /** Keeps what the display showed anew, where it sends every value more than once: then no two neighbours both change. */
    private static Restored fresh(ReadingStore.Entries entries, double resolution_mm) {
        double lone_mm = LONE * resolution_mm;
        double[] y = entries.reading_mm();
        ChangeGaps gaps = new ChangeGaps();
        int last = 0;
        double shown = y.length == 0 ? 0 : y[0];
        for (int i = 1; i < y.length; i++) {
            if (y[i] != shown && !isLone(y, i, lone_mm)) {
                gaps.add(i - last, (y[i] - shown) / resolution_mm);
                last = i;
                shown = y[i];
            }
        }
        int repeats = gaps.repeats();
        return repeats == 1 ? new Restored(entries, 1) : kept(entries, repeats, lone_mm);
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

    private static Restored kept(ReadingStore.Entries entries, int repeats, double lone_mm) {
        double[] t = entries.time_s();
        double[] y = entries.reading_mm();
        boolean[] fleeting = fleeting(y, lone_mm);
        double[] time = new double[t.length];
        double[] reading = new double[t.length];
        int n = 0;
        int last = 0;
        for (int i = 0; i < t.length; i++) {
            boolean anew = n == 0 || y[i] != reading[n - 1] || i - last >= repeats && !isLate(y, i, repeats);
            if (anew && !fleeting[i]) {
                time[n] = t[i];
                reading[n++] = y[i];
                last = i;
            }
        }
        return new Restored(new ReadingStore.Entries(Arrays.copyOf(time, n), Arrays.copyOf(reading, n)), repeats);
    }

    /** Whether what the display shows anew is still to come. */
    private static boolean isLate(double[] y, int i, int repeats) {
        int to = Math.min(y.length - 1, i + ChangeGaps.late(repeats));
        return IntStream.rangeClosed(i, to).anyMatch(k -> y[k] != y[i]);
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
