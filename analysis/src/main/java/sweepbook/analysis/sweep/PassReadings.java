package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;

/**
 * The readings of one pass, ready to be fitted: spikes left out, stops of the hand cut out of the time, time from -1 to 1.
 */
final class PassReadings {
    final int from;
    final int to;
    final double[] pressed_mm;
    final double[] line_mm;
    final double[] time;
    final double topTime;
    final double topLine_mm;

    private final double[] time_s;

    /**
     * @param stops stretches within the pass in which the hand stood: their time is taken out, and their readings but
     *     for the first
     */
    PassReadings(CleanTrace trace, int from, int to, int top, List<Still> stops) {
        this.from = from;
        this.to = to;
        double[] t = new double[to - from];
        double[] s = new double[to - from];
        double[] y = new double[to - from];
        double[] line = new double[to - from];
        int n = 0;
        double removed_s = 0;
        int stop = 0;
        int topAt = 0;
        for (int i = from; i < to; i++) {
            while (stop < stops.size() && i >= stops.get(stop).to()) {
                stop++;
            }
            boolean standing = stop < stops.size() && i > stops.get(stop).from();
            if (standing) {
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
        double middle = n == 0 ? 0 : (time[0] + time[n - 1]) / 2;
        double half = n == 0 ? 1 : Math.max((time[n - 1] - time[0]) / 2, 1e-9);
        for (int i = 0; i < n; i++) {
            time[i] = (time[i] - middle) / half;
        }
        topAt = Math.min(topAt, n - 1);
        topTime = n == 0 ? 0 : time[topAt];
        topLine_mm = n == 0 ? 0 : line_mm[topAt];
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
