package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/**
 * The readings that a fit uses, spikes left out; where there are very many, means of neighbours.
 *
 * @param time_s when, ascending
 * @param reading_mm what was read
 * @param grouped_s how long one group of averaged neighbours lasts, 0 where each sample is one reading
 * @param step_mm step of the display, 0 where readings are as good as continuous
 */
public record Samples(double[] time_s, double[] reading_mm, double grouped_s, double step_mm) {
    public int size() {
        return time_s.length;
    }

    public double from_s() {
        return time_s[0];
    }

    public double to_s() {
        return time_s[time_s.length - 1];
    }

    /** The first so many. */
    public Samples first(int count) {
        return new Samples(Arrays.copyOf(time_s, count), Arrays.copyOf(reading_mm, count), grouped_s, step_mm);
    }

    /** Only the samples to keep. */
    public Samples only(boolean[] keep) {
        int n = 0;
        double[] time = new double[time_s.length];
        double[] reading = new double[time_s.length];
        for (int i = 0; i < time_s.length; i++) {
            if (keep[i]) {
                time[n] = time_s[i];
                reading[n++] = reading_mm[i];
            }
        }
        return new Samples(Arrays.copyOf(time, n), Arrays.copyOf(reading, n), grouped_s, step_mm);
    }

    /** Means of so many neighbours each; the last group may be smaller and is left out. */
    public Samples grouped(int neighbours) {
        int n = time_s.length / neighbours;
        double[] time = new double[n];
        double[] reading = new double[n];
        for (int i = 0; i < n; i++) {
            double t = 0;
            double r = 0;
            for (int j = i * neighbours; j < (i + 1) * neighbours; j++) {
                t += time_s[j];
                r += reading_mm[j];
            }
            time[i] = t / neighbours;
            reading[i] = r / neighbours;
        }
        double between_s = (to_s() - from_s()) / (size() - 1);
        return new Samples(time, reading, neighbours * between_s, step_mm);
    }
}
