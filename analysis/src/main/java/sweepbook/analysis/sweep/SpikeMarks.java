package sweepbook.analysis.sweep;

import java.util.Arrays;

/** Which readings of a trace are spikes, told by a running median of five and the motion about it. */
final class SpikeMarks {
    /** A reading so many standard deviations off is off by more than noise. */
    private static final double FAR = 6;

    private static final int WINDOW = 5;
    /** Readings to either side of the middle of a window. */
    private static final int BESIDE = WINDOW / 2;
    /** In the fastest step of the trace: at its ends a motion may go on over two readings, half as fast again. */
    private static final double FASTEST = 3;
    /** Spikes come alone, sometimes in pairs. */
    private static final int IN_A_ROW = 3;
    /** Of the distance to the line. */
    private static final double LEADS_UP = 0.8;
    /** Of a step: the hand does not change its pace by more from one reading to the next. */
    private static final double PACE = 0.75;

    private final double[] reading_mm;
    private final double far_mm;
    private final boolean[] spike;
    private double[] line;

    /**
     * @param noise_mm standard deviation of a reading about the motion
     */
    SpikeMarks(double[] reading_mm, double noise_mm) {
        this.reading_mm = reading_mm;
        far_mm = FAR * noise_mm;
        spike = new boolean[reading_mm.length];
        double[] medians = medians(reading_mm);
        line = medians;
        if (mark()) {
            // Three spikes in five bend the median; without those found already that is rarer by far.
            line = linedUp(medians);
            mark();
            line = linedUp(medians);
            unmarkCrests();
        }
        for (int i = 0; i < spike.length; i++) {
            // A median cuts the crest of a pass of few readings.
            if (!spike[i] && off_mm(i) > far_mm && movesBeside(i)) {
                line[i] = reading_mm[i];
            }
        }
    }

    boolean[] spikes() {
        return spike;
    }

    /** The running median, which no spike moves. */
    double[] line() {
        return line;
    }

    /** Marks the spikes; whether there is any. */
    private boolean mark() {
        int n = spike.length;
        boolean any = false;
        for (int i = 0; i < n && n >= WINDOW; i++) {
            spike[i] = off_mm(i) > far_mm
                    && off_mm(i) > far_mm + (isAtEnd(i) ? motionAtEnd(i) : motion(i))
                    && !goesOn(i, -1)
                    && !goesOn(i, +1);
            any |= spike[i];
        }
        return any;
    }

    private boolean isAtEnd(int at) {
        return at < BESIDE || at >= spike.length - BESIDE;
    }

    private double off_mm(int at) {
        return Math.abs(reading_mm[at] - line[at]);
    }

    /** Whether a reading is where the two before it, or after it, lead: on a quick crest a median lags behind. */
    private boolean goesOn(int at, int side) {
        int near = at + side;
        int far = near + side;
        if (far < 0 || far >= spike.length) {
            return false;
        }
        double step = reading_mm[near] - reading_mm[far];
        double off = reading_mm[at] - reading_mm[near] - step;
        return Math.abs(off) <= far_mm + PACE * Math.abs(step)
                && off_mm(near) <= far_mm + motion(near)
                && off_mm(far) <= far_mm + motion(far);
    }

    /** Whether the readings beside one move as well, so that it stands out of a motion rather than of noise. */
    private boolean movesBeside(int at) {
        return isAtEnd(at) || step(at - 2) + step(at + 1) > off_mm(at) / 2;
    }

    /** Two readings at an end that are off may move on, but no faster than elsewhere; one alone moves as those before it. */
    private double motionAtEnd(int at) {
        int n = line.length;
        int inner = at < BESIDE ? BESIDE - 1 : n - BESIDE;
        int outer = at < BESIDE ? 0 : n - 1;
        boolean movesOn = (reading_mm[inner] - line[inner]) * (reading_mm[outer] - reading_mm[inner]) > 0
                && off_mm(inner) > far_mm;
        double fast_mm = movesOn ? FASTEST * fastestStep() : 0;
        return movesOn && off_mm(outer) <= far_mm + fast_mm ? fast_mm : motion(at);
    }

    /** Of the line, from one reading to the next. */
    private double fastestStep() {
        double fastest = 0;
        for (int i = 1; i < line.length; i++) {
            fastest = Math.max(fastest, Math.abs(line[i] - line[i - 1]));
        }
        return fastest;
    }

    private double motion(int at) {
        if (isAtEnd(at)) {
            int edge = at < BESIDE ? BESIDE : line.length - 2 - BESIDE;
            return Math.abs(line[edge + 1] - line[edge]);
        }
        double low = line[at];
        double high = line[at];
        for (int k = at - BESIDE; k <= at + BESIDE; k++) {
            low = Math.min(low, line[k]);
            high = Math.max(high, line[k]);
        }
        return Math.min(high - low, Math.min(step(at - 2), step(at + 1)));
    }

    /** From one reading to the next. */
    private double step(int from) {
        return Math.abs(reading_mm[from + 1] - reading_mm[from]);
    }

    /** Three marked in a row to which the readings beside them lead up are a crest that few readings show, no spikes. */
    private void unmarkCrests() {
        int n = spike.length;
        for (int from = 0; from < n; from++) {
            int to = from;
            double off = Double.POSITIVE_INFINITY;
            while (to < n && spike[to]) {
                off = Math.min(off, off_mm(to));
                to++;
            }
            if (to - from >= IN_A_ROW && from > 0 && to < n && widestStep(from - 1, to) < LEADS_UP * off) {
                Arrays.fill(spike, from, to, false);
            }
            from = to;
        }
    }

    private double widestStep(int first, int last) {
        double widest = 0;
        for (int i = first; i < last; i++) {
            widest = Math.max(widest, step(i));
        }
        return widest;
    }

    /** Running medians of the readings that are no spikes, which differ from those of all readings near spikes only. */
    private double[] linedUp(double[] medians) {
        double[] kept = new double[reading_mm.length];
        int n = 0;
        for (int i = 0; i < spike.length; i++) {
            if (!spike[i]) {
                kept[n++] = reading_mm[i];
            }
        }
        double[] linedUp = medians.clone();
        int at = 0;
        int nearTo = -1;
        for (int i = -BESIDE; i < spike.length && n > 0; i++) {
            nearTo = i + BESIDE < spike.length && spike[i + BESIDE] ? i + 2 * BESIDE : nearTo;
            if (i >= 0) {
                if (i <= nearTo) {
                    linedUp[i] = median(kept, n, Math.min(at, n - 1));
                }
                at += spike[i] ? 0 : 1;
            }
        }
        return linedUp;
    }

    private static double[] medians(double[] values) {
        int n = values.length;
        double[] medians = new double[n];
        for (int i = BESIDE; i < n - BESIDE; i++) {
            medians[i] = RunningMedian.of(values[i - 2], values[i - 1], values[i], values[i + 1], values[i + 2]);
        }
        for (int i = 0; i < Math.min(BESIDE, n); i++) {
            medians[i] = median(values, n, i);
            medians[n - 1 - i] = median(values, n, n - 1 - i);
        }
        return medians;
    }

    /** The median of the five of n values about one, of the outermost five at an end, of three where there are no five. */
    private static double median(double[] values, int n, int at) {
        if (n >= WINDOW) {
            int i = Math.max(BESIDE, Math.min(n - 1 - BESIDE, at));
            return RunningMedian.of(values[i - 2], values[i - 1], values[i], values[i + 1], values[i + 2]);
        }
        return at == 0 || at == n - 1 ? values[at] : RunningMedian.of(values[at - 1], values[at], values[at + 1]);
    }
}
