package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The readings of a sweep in bounded memory, times never descending. Up to {@link #CAPACITY} readings are kept as they
 * came; when the store is full, each five neighbours become one entry with their middle value at their mean time. So spikes drop
 * out, and an entry is what the display would show of a calmer needle: rounding does not change which value is the middle one.
 * What is kept depends on the readings alone.
 */
final class ReadingStore {
    /** Ten minutes at 100 readings a second, half a one at 2000: beyond it neighbours tell the same. A whole number of groups. */
    static final int CAPACITY = 62_500;

    private static final int GROUP = 5;

    private double[] time_s;
    private double[] reading_mm;
    private final double lastDigit_mm;
    private int size;
    private double unmergedResolution_mm = Double.NaN;
    /** One group in the making for each time the store was full, the finest first. */
    private final List<Group> groups = new ArrayList<>();

    private static final class Group {
        final double[] time_s = new double[GROUP];
        final double[] reading_mm = new double[GROUP];
        int size;
    }

    ReadingStore() {
        this(1024, Double.NaN);
    }

    /**
     * @param readings that are expected; there may be more
     * @param lastDigit_mm to which they were written, NaN where they were not
     */
    ReadingStore(int readings, double lastDigit_mm) {
        this.lastDigit_mm = lastDigit_mm;
        int some = Math.max(1, Math.min(readings, CAPACITY));
        time_s = new double[some];
        reading_mm = new double[some];
    }

    void add(double atTime_s, double value_mm) {
        double t = atTime_s;
        double v = value_mm;
        for (int level = 0; level < groups.size(); level++) {
            Group group = groups.get(level);
            group.time_s[group.size] = t;
            group.reading_mm[group.size] = v;
            if (++group.size < GROUP) {
                return;
            }
            group.size = 0;
            t = mean(group.time_s, 0);
            v = middle(group.reading_mm, 0);
        }
        append(t, v);
        if (size == CAPACITY) {
            merge();
        }
    }

    /** The step of the display as the readings or their digits show it, NaN where they do not. */
    double resolution_mm() {
        return groups.isEmpty() ? Resolution.of(Arrays.copyOf(reading_mm, size), lastDigit_mm) : unmergedResolution_mm;
    }

    /** Whether every reading is an entry of its own. */
    boolean isWhole() {
        return groups.isEmpty();
    }

    /** The entries so far, in time order. */
    Entries entries() {
        int pending = 0;
        for (Group group : groups) {
            pending += group.size;
        }
        double[] t = Arrays.copyOf(time_s, size + pending);
        double[] v = Arrays.copyOf(reading_mm, size + pending);
        int n = size;
        for (int level = groups.size() - 1; level >= 0; level--) {
            Group group = groups.get(level);
            for (int i = 0; i < group.size; i++) {
                t[n] = group.time_s[i];
                v[n++] = group.reading_mm[i];
            }
        }
        return new Entries(t, v);
    }

    record Entries(double[] time_s, double[] reading_mm) {}

    private void append(double atTime_s, double value_mm) {
        if (size == time_s.length) {
            time_s = Arrays.copyOf(time_s, 2 * size);
            reading_mm = Arrays.copyOf(reading_mm, 2 * size);
        }
        time_s[size] = atTime_s;
        reading_mm[size++] = value_mm;
    }

    private void merge() {
        if (groups.isEmpty()) {
            unmergedResolution_mm = resolution_mm();
        }
        for (int i = 0; i < size / GROUP; i++) {
            time_s[i] = mean(time_s, i * GROUP);
            reading_mm[i] = middle(reading_mm, i * GROUP);
        }
        size /= GROUP;
        groups.add(new Group());
    }

    private static double mean(double[] a, int from) {
        return (a[from] + a[from + 1] + a[from + 2] + a[from + 3] + a[from + 4]) / GROUP;
    }

    private static double middle(double[] a, int from) {
        return RunningMedian.of(a[from], a[from + 1], a[from + 2], a[from + 3], a[from + 4]);
    }
}
