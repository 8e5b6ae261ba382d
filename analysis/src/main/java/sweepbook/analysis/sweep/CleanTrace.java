package sweepbook.analysis.sweep;

import java.util.Arrays;
import org.hipparchus.util.KthSelector;

/**
 * Readings with a smooth line beside them that no lone spike moves, for finding what happens where; numbers are taken
 * from the readings themselves. Readings and line count upwards in the direction of pressing.
 *
 * @param time_s times, never descending
 * @param pressed_mm readings, turned over where pressing lowers them
 * @param line_mm running median of five
 * @param spike whether a reading is off the line by more than the motion about it allows
 * @param noise_mm standard deviation of a reading about the motion, resolution included, rough
 * @param resolution_mm step of the display; 0 where it could not be told
 */
record CleanTrace(
        double[] time_s,
        double[] pressed_mm,
        double[] line_mm,
        boolean[] spike,
        double noise_mm,
        double resolution_mm) {

    /** A reading so many standard deviations off is off by more than noise. */
    private static final double FAR = 6;

    private static final int WINDOW = 5;
    /** Readings to either side of the middle of a window. */
    private static final int BESIDE = WINDOW / 2;
    /** By so much a motion may quicken from the last full window to the end of the trace. */
    private static final double FASTER = 3;
    /** Spikes come alone, sometimes in pairs. */
    private static final int IN_A_ROW = 3;
    /** Of the distance to the line. */
    private static final double LEADS_UP = 0.8;

    /** The quietest windows that tell the noise, as a share of all, in a trace of few readings and in one of many. */
    private static final double QUIET_OF_FEW = 0.03;

    private static final double QUIET_OF_MANY = 0.1;
    private static final int FEW = 100;
    private static final int MANY = 400;
    /** So many tell it well enough; of more, every second or third is taken. */
    private static final int MOST_WINDOWS = 1 << 12;

    static CleanTrace of(double[] time_s, double[] reading_mm, int repeats, double resolution_mm) {
        int n = reading_mm.length;
        double q = Double.isNaN(resolution_mm) ? 0 : resolution_mm;
        double noise = Math.max(noise(reading_mm), 0.3 * q);
        boolean[] spike = new boolean[n];
        if (repeats > 1) {
            // Passes of few readings would lose their crests to a median, and a slow display shows no lone spike.
            return new CleanTrace(time_s, reading_mm, reading_mm, spike, noise, q);
        }
        double[] medians = medians(reading_mm);
        double[] line = medians;
        if (mark(spike, reading_mm, line, noise)) {
            // Three spikes in five bend the median; without those found already that is rarer by far.
            line = linedUp(reading_mm, spike, medians);
            mark(spike, reading_mm, line, noise);
            line = linedUp(reading_mm, spike, medians);
            unmarkCrests(spike, reading_mm, line);
        }
        for (int i = 0; i < n; i++) {
            // A median cuts the crest of a pass of few readings.
            if (!spike[i] && Math.abs(reading_mm[i] - line[i]) > FAR * noise) {
                line[i] = reading_mm[i];
            }
        }
        return new CleanTrace(time_s, reading_mm, line, spike, noise, q);
    }

    /** Marks the spikes; whether there is any. */
    private static boolean mark(boolean[] spike, double[] reading_mm, double[] line, double noise) {
        int n = line.length;
        boolean any = false;
        for (int i = 0; i < n; i++) {
            double off = Math.abs(reading_mm[i] - line[i]);
            spike[i] = off > FAR * noise && off > FAR * noise + motion(reading_mm, line, i);
            any |= spike[i];
        }
        return any;
    }

    /** Three marked in a row to which the readings beside them lead up are a crest that few readings show, no spikes. */
    private static void unmarkCrests(boolean[] spike, double[] reading_mm, double[] line) {
        int n = spike.length;
        for (int from = 0; from < n; from++) {
            int to = from;
            double off = Double.POSITIVE_INFINITY;
            while (to < n && spike[to]) {
                off = Math.min(off, Math.abs(reading_mm[to] - line[to]));
                to++;
            }
            if (to - from >= IN_A_ROW && from > 0 && to < n && widestStep(reading_mm, from, to) < LEADS_UP * off) {
                Arrays.fill(spike, from, to, false);
            }
            from = to;
        }
    }

    /** From a reading before some to the one after them. */
    private static double widestStep(double[] reading_mm, int from, int to) {
        double widest = 0;
        for (int i = from; i <= to; i++) {
            widest = Math.max(widest, Math.abs(reading_mm[i] - reading_mm[i - 1]));
        }
        return widest;
    }

    private static double motion(double[] reading_mm, double[] line, int at) {
        int n = line.length;
        if (n >= WINDOW && (at < BESIDE || at >= n - BESIDE)) {
            // Nobody beyond tells a spike from a motion: it goes on as the readings before it, or some times faster.
            int edge = at < BESIDE ? BESIDE : n - 1 - BESIDE;
            return FASTER * Math.abs(line[edge] - line[at < BESIDE ? edge + BESIDE : edge - BESIDE]);
        }
        double low = line[at];
        double high = line[at];
        for (int k = Math.max(0, at - 2); k <= Math.min(line.length - 1, at + 2); k++) {
            low = Math.min(low, line[k]);
            high = Math.max(high, line[k]);
        }
        return Math.min(high - low, Math.min(step(reading_mm, at - 2), step(reading_mm, at + 1)));
    }

    /** From one reading to the next; beyond the ends the other side is to decide. */
    private static double step(double[] reading_mm, int from) {
        return from < 0 || from + 1 >= reading_mm.length
                ? Double.POSITIVE_INFINITY
                : Math.abs(reading_mm[from + 1] - reading_mm[from]);
    }

    /** Running medians of the readings that are no spikes, which differ from those of all readings near spikes only. */
    private static double[] linedUp(double[] reading_mm, boolean[] spike, double[] medians) {
        double[] kept = new double[reading_mm.length];
        int n = 0;
        for (int i = 0; i < spike.length; i++) {
            if (!spike[i]) {
                kept[n++] = reading_mm[i];
            }
        }
        double[] line = medians.clone();
        int at = 0;
        int nearTo = -1;
        for (int i = -2; i < spike.length && n > 0; i++) {
            nearTo = i + 2 < spike.length && spike[i + 2] ? i + 4 : nearTo;
            if (i >= 0) {
                if (i <= nearTo) {
                    line[i] = median(kept, n, Math.min(at, n - 1));
                }
                at += spike[i] ? 0 : 1;
            }
        }
        return line;
    }

    private static double[] medians(double[] values) {
        int n = values.length;
        double[] medians = new double[n];
        for (int i = 2; i < n - 2; i++) {
            medians[i] = RunningMedian.of(values[i - 2], values[i - 1], values[i], values[i + 1], values[i + 2]);
        }
        for (int i = 0; i < Math.min(2, n); i++) {
            medians[i] = median(values, n, i);
            medians[n - 1 - i] = median(values, n, n - 1 - i);
        }
        return medians;
    }

    /** The median of the five of n values about one. */
    private static double median(double[] values, int n, int at) {
        if (n < 3) {
            return values[at];
        }
        if (at > 1 && at < n - 2) {
            return RunningMedian.of(values[at - 2], values[at - 1], values[at], values[at + 1], values[at + 2]);
        }
        if (n >= WINDOW) {
            return median(values, n, Math.max(BESIDE, Math.min(n - 1 - BESIDE, at)));
        }
        return at == 0 || at == n - 1 ? values[at] : RunningMedian.of(values[at - 1], values[at], values[at + 1]);
    }

    int size() {
        return time_s.length;
    }

    /** The same trace seen with the other sense of pressing. */
    CleanTrace turnedOver() {
        return new CleanTrace(time_s, negated(pressed_mm), negated(line_mm), spike, noise_mm, resolution_mm);
    }

    /** The same trace with a steady drift taken out that counts from a given time. */
    CleanTrace without(double drift_mm_per_s, double since_s) {
        double[] pressed = pressed_mm.clone();
        double[] line = line_mm.clone();
        for (int i = 0; i < pressed.length; i++) {
            double shift = drift_mm_per_s * (time_s[i] - since_s);
            pressed[i] -= shift;
            line[i] -= shift;
        }
        return new CleanTrace(time_s, pressed, line, spike, noise_mm, resolution_mm);
    }

    /** Standard deviation of one reading, its rounding included. */
    double total_mm() {
        return Math.sqrt(noise_mm * noise_mm + resolution_mm * resolution_mm / 12);
    }

    private static double[] negated(double[] a) {
        double[] b = new double[a.length];
        for (int i = 0; i < a.length; i++) {
            b[i] = -a[i];
        }
        return b;
    }

    /**
     * From short windows about lines of their own: the quieter ones hold no spike and no turn, and repeats of a slow display do
     * not make them quieter.
     */
    private static double noise(double[] reading_mm) {
        int windows = reading_mm.length - WINDOW + 1;
        if (reading_mm.length < WINDOW) {
            return 0;
        }
        int stride = (windows + MOST_WINDOWS - 1) / MOST_WINDOWS;
        int n = windows / stride;
        double[] squares = new double[n];
        for (int i = 0; i < n; i++) {
            squares[i] = squares(reading_mm, i * stride);
        }
        double many = Math.max(0, Math.min(1, (n - FEW) / (double) (MANY - FEW)));
        double quiet = QUIET_OF_FEW + (QUIET_OF_MANY - QUIET_OF_FEW) * many;
        // The lower quantiles x of chi-square with WINDOW - 2 = 3 degrees of freedom: probability sqrt(2 / pi) x^1.5 /
        // 3.
        double chiSquare = Math.pow(3 * quiet * Math.sqrt(Math.PI / 2), 2.0 / 3);
        return Math.sqrt(new KthSelector().select(squares, null, (int) (quiet * n)) / chiSquare);
    }

    /** About a line of the readings of one window. */
    private static double squares(double[] reading_mm, int from) {
        double mean = 0;
        double slope = 0;
        for (int i = 0; i < WINDOW; i++) {
            mean += reading_mm[from + i];
            slope += (i - (WINDOW - 1) / 2.0) * reading_mm[from + i];
        }
        mean /= WINDOW;
        slope *= 12.0 / (WINDOW * (WINDOW * WINDOW - 1));
        double squares = 0;
        for (int i = 0; i < WINDOW; i++) {
            double off = reading_mm[from + i] - mean - slope * (i - (WINDOW - 1) / 2.0);
            squares += off * off;
        }
        return squares;
    }
}
