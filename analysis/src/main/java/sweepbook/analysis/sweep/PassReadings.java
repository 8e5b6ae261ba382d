package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * The readings of one pass, ready to be fitted: spikes left out, stops of the hand cut out of the time, time from -1 to 1.
 */
final class PassReadings {
    /** Share of the hands that pause while they cross the crest. */
    private static final double PAUSES = 0.2;

    final int from;
    final int to;
    final int top;
    final double[] pressed_mm;
    final double[] line_mm;
    final double[] time;
    final double topTime;
    final double topLine_mm;

    private final double[] time_s;
    private final double perUnit;
    private final double middle;
    private final int topAt;
    private final int perReading;
    private final boolean counted;
    private final int pauses;

    /**
     * @param stops stretches within the pass in which the hand stood: their time is taken out, and their readings but
     *     for the first
     * @param pauses more such stretches, of which the readings stay
     */
    PassReadings(CleanTrace trace, int from, int to, int top, List<Still> stops, List<Still> pauses) {
        this.from = from;
        this.to = to;
        this.top = top;
        double[] t = new double[to - from];
        double[] s = new double[to - from];
        double[] y = new double[to - from];
        double[] line = new double[to - from];
        int n = 0;
        double removed_s = 0;
        int stop = 0;
        int pause = 0;
        int topAt = 0;
        for (int i = from; i < to; i++) {
            while (stop < stops.size() && i >= stops.get(stop).to()) {
                stop++;
            }
            while (pause < pauses.size() && i >= pauses.get(pause).to()) {
                pause++;
            }
            boolean standing = stop < stops.size() && i > stops.get(stop).from();
            if (standing || pause < pauses.size() && i > pauses.get(pause).from()) {
                removed_s += trace.time_s()[i] - trace.time_s()[i - 1];
            }
            if (i <= top) {
                topAt = n;
            }
            if (standing || trace.spike()[i]) {
                continue;
            }
            s[n] = trace.time_s()[i];
            t[n] = trace.time_s()[i] - removed_s;
            y[n] = trace.pressed_mm()[i];
            line[n++] = trace.line_mm()[i];
        }
        time_s = Arrays.copyOf(s, n);
        pressed_mm = Arrays.copyOf(y, n);
        line_mm = Arrays.copyOf(line, n);
        time = Arrays.copyOf(t, n);
        topAt = Math.min(topAt, n - 1);
        this.topAt = topAt;
        perReading = 1;
        counted = false;
        this.pauses = pauses.size();
        perUnit = n == 0 ? 1 : Math.max((time[n - 1] - time[0]) / 2, 1e-9);
        middle = n == 0 ? 0 : (time[0] + time[n - 1]) / 2;
        normalise();
        topTime = n == 0 ? 0 : time[topAt];
        topLine_mm = n == 0 ? 0 : line_mm[topAt];
    }

    private PassReadings(PassReadings source, double[] counts) {
        from = source.from;
        to = source.to;
        top = source.top;
        pressed_mm = source.pressed_mm;
        line_mm = source.line_mm;
        time_s = source.time_s;
        topAt = source.topAt;
        perReading = source.perReading;
        counted = true;
        pauses = source.pauses;
        topLine_mm = source.topLine_mm;
        time = counts.clone();
        perUnit = Math.max((time[time.length - 1] - time[0]) / 2, 1e-9);
        middle = (time[0] + time[time.length - 1]) / 2;
        normalise();
        topTime = time[topAt];
    }

    private void normalise() {
        for (int i = 0; i < time.length; i++) {
            time[i] = (time[i] - middle) / perUnit;
        }
    }

    /** No more than so many readings, every second or third if need be. */
    PassReadings every(int most) {
        int stride = (size() + most - 1) / most;
        return stride <= 1 ? this : new PassReadings(this, stride, false);
    }

    /** No more than so many readings, means of neighbours if need be. */
    PassReadings averaged(int most) {
        int group = (size() + most - 1) / most;
        return group <= 1 ? this : new PassReadings(this, group, true);
    }

    /** How many of the trace's readings make one here. */
    int perReading() {
        return perReading;
    }

    private PassReadings(PassReadings source, int group, boolean averaged) {
        from = source.from;
        to = source.to;
        top = source.top;
        int n = source.size() / group;
        pressed_mm = new double[n];
        line_mm = new double[n];
        time = new double[n];
        time_s = new double[n];
        int over = averaged ? group : 1;
        for (int i = 0; i < n; i++) {
            for (int k = i * group; k < i * group + over; k++) {
                pressed_mm[i] += source.pressed_mm[k] / over;
                line_mm[i] += source.line_mm[k] / over;
                time[i] += source.count(k) / over;
                time_s[i] += source.time_s[k] / over;
            }
        }
        counted = source.counted;
        pauses = source.pauses;
        perReading = averaged ? group * source.perReading : source.perReading;
        topAt = Math.min(source.topAt / group, n - 1);
        topLine_mm = line_mm[topAt];
        perUnit = Math.max((time[n - 1] - time[0]) / 2, 1e-9);
        middle = (time[0] + time[n - 1]) / 2;
        normalise();
        topTime = time[topAt];
    }

    /** The same readings with a count, never descending, in the place of time. */
    PassReadings counted(double[] counts) {
        return new PassReadings(this, counts);
    }

    /** Log of how probable it is beforehand that the hand paused as often as it is taken to have. */
    double logPrior() {
        return pauses * FastMath.log(PAUSES);
    }

    /** Whether the hand is taken to have paused near the crest. */
    boolean pauses() {
        return pauses > 0;
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
        double lowest = topLine_mm;
        for (double v : line_mm) {
            lowest = Math.min(lowest, v);
        }
        return topLine_mm - lowest;
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
