package sweepbook.analysis.sweep;

import java.util.Arrays;

/**
 * Readings in rising order, equal ones counted together.
 *
 * @param sorted_mm the readings
 * @param counts how many alike begin at each first of them
 */
record Alike(double[] sorted_mm, int[] counts) {
    /** @param same_mm readings no farther apart are taken for equal */
    static Alike of(double[] readings_mm, double same_mm) {
        double[] sorted = readings_mm.clone();
        Arrays.sort(sorted);
        int[] counts = new int[sorted.length];
        int first = 0;
        for (int i = 0; i < sorted.length; i++) {
            if (sorted[i] - sorted[first] > same_mm) {
                first = i;
            }
            counts[first]++;
        }
        return new Alike(sorted, counts);
    }
}
