package sweepbook.analysis.sweep;

import java.util.Arrays;

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

    static CleanTrace of(double[] time_s, double[] reading_mm, double resolution_mm) {
        int n = reading_mm.length;
        double q = Double.isNaN(resolution_mm) ? 0 : resolution_mm;
        double noise = Math.max(noise(reading_mm), 0.3 * q);
        boolean[] spike = new boolean[n];
        double[] line = medians(reading_mm);
        mark(spike, reading_mm, line, noise);
        // Three spikes in five bend the median; without those found already that is rarer by far.
        line = linedUp(reading_mm, spike);
        mark(spike, reading_mm, line, noise);
        return new CleanTrace(time_s, reading_mm, linedUp(reading_mm, spike), spike, noise, q);
    }

    private static void mark(boolean[] spike, double[] reading_mm, double[] line, double noise) {
        int n = line.length;
        for (int i = 0; i < n; i++) {
            double low = line[i];
            double high = line[i];
            for (int k = Math.max(0, i - 2); k <= Math.min(n - 1, i + 2); k++) {
                low = Math.min(low, line[k]);
                high = Math.max(high, line[k]);
            }
            spike[i] = Math.abs(reading_mm[i] - line[i]) > 6 * noise + (high - low);
        }
    }

    /** Running medians of the readings that are no spikes; a spike has the value of the one before it. */
    private static double[] linedUp(double[] reading_mm, boolean[] spike) {
        double[] kept = new double[reading_mm.length];
        int n = 0;
        for (int i = 0; i < spike.length; i++) {
            if (!spike[i]) {
                kept[n++] = reading_mm[i];
            }
        }
        double[] medians = medians(Arrays.copyOf(kept, n));
        double[] line = new double[reading_mm.length];
        int at = 0;
        for (int i = 0; i < spike.length; i++) {
            line[i] = n == 0 ? reading_mm[i] : medians[Math.min(at, n - 1)];
            at += spike[i] ? 0 : 1;
        }
        return line;
    }

    private static double[] medians(double[] values) {
        int n = values.length;
        double[] medians = new double[n];
        double[] window = new double[5];
        for (int i = 0; i < n; i++) {
            int half = Math.min(2, Math.min(i, n - 1 - i));
            medians[i] = median(values, i - half, 2 * half + 1, window);
        }
        if (n > 4) {
            // The ends have nobody beyond them: a spike there is told by the three next to it.
            medians[0] = median(values, 0, 3, window);
            medians[n - 1] = median(values, n - 3, 3, window);
        }
        return medians;
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

    /** From second differences, whose low quantile motion and spikes hardly touch. */
    private static double noise(double[] reading_mm) {
        int n = reading_mm.length - 2;
        if (n < 3) {
            return 0;
        }
        double[] second = new double[n];
        for (int i = 0; i < n; i++) {
            second[i] = Math.abs(reading_mm[i + 1] - (reading_mm[i] + reading_mm[i + 2]) / 2);
        }
        Arrays.sort(second);
        // The 40 % quantile of |N(0, 1.5 sigma^2)| lies at 0.5244 sqrt(1.5) sigma.
        return second[(int) (0.4 * n)] / (0.5244 * Math.sqrt(1.5));
    }

    private static double median(double[] a, int from, int count, double[] window) {
        for (int i = 0; i < count; i++) {
            double v = a[from + i];
            int k = i;
            while (k > 0 && window[k - 1] > v) {
                window[k] = window[k - 1];
                k--;
            }
            window[k] = v;
        }
        return window[count / 2];
    }
}
