package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * The readings of one pass, ready to be fitted: spikes left out, stops of the hand cut out of the time, time from -1 to 1.
 */
final class PassReadings {
    final double[] pressed_mm;
    final double[] line_mm;
    final double[] time;
    /** Read while the hand paused; the other readings are of the motion before and after. */
    final double[] stood_mm;

    final double topTime;
    final double topLine_mm;

    private final Stretch of;
    private final double[] time_s;
    private final double perUnit;
    private final double middle;
    private final int topAt;
    private final double fall_mm;
    private final int perReading;
    private final boolean counted;

    /** Readings of the trace, and the pause that the hand is taken to have made among them. */
    private record Stretch(int from, int to, int top, Optional<Pause> pause) {}

    /** Readings in columns, and those of the pause; the count is that of seconds in motion, or of clicks. */
    private record Columns(double[] time_s, double[] pressed_mm, double[] line_mm, double[] count, double[] stood_mm) {
        Columns(int size, double[] stood_mm) {
            this(new double[size], new double[size], new double[size], new double[size], stood_mm);
        }

        Columns first(int n, int stood) {
            return new Columns(
                    Arrays.copyOf(time_s, n),
                    Arrays.copyOf(pressed_mm, n),
                    Arrays.copyOf(line_mm, n),
                    Arrays.copyOf(count, n),
                    Arrays.copyOf(stood_mm, stood));
        }
    }

    private PassReadings(Stretch of, Columns columns, int topAt, int perReading, boolean counted) {
        this.of = of;
        time_s = columns.time_s;
        pressed_mm = columns.pressed_mm;
        line_mm = columns.line_mm;
        stood_mm = columns.stood_mm;
        this.perReading = perReading;
        this.counted = counted;
        int n = time_s.length;
        this.topAt = Math.min(topAt, n - 1);
        double[] count = columns.count;
        middle = n == 0 || pauses() ? 0 : (count[0] + count[n - 1]) / 2;
        perUnit = n == 0 ? 1 : Math.max(Math.max(count[n - 1] - middle, middle - count[0]), 1e-9);
        time = Arrays.stream(count).map(c -> (c - middle) / perUnit).toArray();
        topTime = n == 0 ? 0 : time[this.topAt];
        topLine_mm = n == 0 ? 0 : line_mm[this.topAt];
        fall_mm = topLine_mm - Arrays.stream(line_mm).reduce(topLine_mm, Math::min);
    }

    /**
     * @param stops stretches within the pass in which the hand stood: their time is taken out, and their readings but
     *     for the first
     * @param pause of the hand near the crest, if it made one: its readings stand beside those of the motion, at time 0
     */
    static PassReadings of(CleanTrace trace, int from, int to, int top, List<Still> stops, Optional<Pause> pause) {
        Columns all = new Columns(to - from, new double[pause.isPresent() ? to - from : 0]);
        int n = 0;
        int stood = 0;
        double removed_s = 0;
        double origin_s = Double.NaN;
        int stop = 0;
        int topAt = 0;
        for (int i = from; i < to; i++) {
            double time_s = trace.time_s()[i];
            while (stop < stops.size() && i >= stops.get(stop).to()) {
                stop++;
            }
            boolean standing = stop < stops.size() && i > stops.get(stop).from();
            if (standing) {
                removed_s += time_s - trace.time_s()[i - 1];
            }
            if (Double.isNaN(origin_s)
                    && pause.isPresent()
                    && time_s >= pause.get().from_s()) {
                origin_s = pause.get().from_s() - removed_s;
                removed_s += pause.get().seconds();
            }
            if (i <= top) {
                topAt = n;
            }
            if (standing || trace.spike()[i]) {
                continue;
            }
            if (pause.isPresent() && pause.get().holds(time_s)) {
                all.stood_mm[stood++] = trace.pressed_mm()[i];
                continue;
            }
            all.time_s[n] = time_s;
            all.count[n] = time_s - removed_s;
            all.pressed_mm[n] = trace.pressed_mm()[i];
            all.line_mm[n++] = trace.line_mm()[i];
        }
        double pauseAt = Double.isNaN(origin_s) ? 0 : origin_s;
        for (int i = 0; i < n; i++) {
            all.count[i] -= pauseAt;
        }
        return new PassReadings(new Stretch(from, to, top, pause), all.first(n, stood), topAt, 1, false);
    }

    /** No more than so many readings, every second or third if need be. */
    PassReadings every(int most) {
        int stride = (size() + most - 1) / most;
        return stride <= 1 ? this : grouped(stride, 1);
    }

    /** No more than so many readings, means of neighbours if need be. */
    PassReadings averaged(int most) {
        int group = (size() + most - 1) / most;
        return group <= 1 ? this : grouped(group, group);
    }

    /** No more than so many readings, evenly spread from the first to the last: the same motion told roughly. */
    PassReadings sample(int most) {
        if (size() <= most) {
            return this;
        }
        Columns some = new Columns(most, stood_mm);
        int last = most - 1;
        for (int k = 0; k < most; k++) {
            int i = (int) ((long) k * (size() - 1) / last);
            some.time_s[k] = time_s[i];
            some.pressed_mm[k] = pressed_mm[i];
            some.line_mm[k] = line_mm[i];
            some.count[k] = count(i);
        }
        return new PassReadings(of, some, topAt * last / (size() - 1), perReading, counted);
    }

    /** Of each group the mean of the first so many. */
    private PassReadings grouped(int group, int over) {
        double[] counts = IntStream.range(0, size()).mapToDouble(this::count).toArray();
        Columns means = new Columns(
                means(time_s, group, over),
                means(pressed_mm, group, over),
                means(line_mm, group, over),
                means(counts, group, over),
                means(stood_mm, group, over));
        return new PassReadings(of, means, topAt / group, over * perReading, counted);
    }

    private static double[] means(double[] values, int group, int over) {
        double[] means = new double[values.length / group];
        for (int i = 0; i < means.length; i++) {
            for (int k = i * group; k < i * group + over; k++) {
                means[i] += values[k] / over;
            }
        }
        return means;
    }

    /** The same readings with a count, never descending, in the place of time. */
    PassReadings counted(double[] counts) {
        return new PassReadings(
                of, new Columns(time_s, pressed_mm, line_mm, counts, stood_mm), topAt, perReading, true);
    }

    /** The trace's first reading of the pass. */
    int from() {
        return of.from;
    }

    /** The trace's reading after the last of the pass. */
    int to() {
        return of.to;
    }

    /** The trace's reading at the rough top. */
    int top() {
        return of.top;
    }

    /** How many of the trace's readings make one here. */
    int perReading() {
        return perReading;
    }

    /** The pause that the hand is taken to have made near the crest. */
    Optional<Pause> pause() {
        return of.pause;
    }

    /** Log of how probable it is beforehand that the hand paused as it is taken to have. */
    double logPrior() {
        return of.pause.map(Pause::logPrior).orElse(0.0);
    }

    /** Whether the hand is taken to have paused near the crest. */
    boolean pauses() {
        return of.pause.isPresent();
    }

    /** Whether a count of equal clicks stands in the place of time. */
    boolean isCounted() {
        return counted;
    }

    /** Seconds, or counts, that make one unit of the time from -1 to 1. */
    double perUnit() {
        return perUnit;
    }

    /** Seconds, or counts, at time 0. */
    double middle() {
        return middle;
    }

    /** Seconds, or counts, of a reading. */
    double count(int i) {
        return middle + perUnit * time[i];
    }

    /** The trace's own time of a reading. */
    double at_s(int i) {
        return time_s[i];
    }

    int size() {
        return time.length;
    }

    /** How far the line falls below the top. */
    double fall_mm() {
        return fall_mm;
    }

    /** How far the line goes from one reading to the next on the lower half of the flanks, where no hand pauses for the crest. */
    double flankStep_mm() {
        double half_mm = topLine_mm - fall_mm / 2;
        return fall_mm
                / Math.max(
                        1, Arrays.stream(line_mm).filter(line -> line < half_mm).count());
    }

    /** The trace's own time at a time from -1 to 1. */
    double time_s(double at) {
        int i = Arrays.binarySearch(time, at);
        int above = Math.max(1, Math.min(time.length - 1, i < 0 ? -i - 1 : i));
        double step = time[above] - time[above - 1];
        double share = step > 0 ? (at - time[above - 1]) / step : 0;
        return time_s[above - 1] + share * (time_s[above] - time_s[above - 1]);
    }
}
