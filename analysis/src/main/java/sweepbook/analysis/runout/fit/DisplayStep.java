package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/** The step of a display, told from the readings themselves. */
public final class DisplayStep {
    private static final double LEAST_STEP_MM = 1e-7;
    /** Rounded decimals of a file in inches are off a lattice by no more. */
    private static final double OFF_LATTICE = 0.02;

    private static final int MOST_READINGS = 50_000;

    private DisplayStep() {}

    /** The step in millimetres; 0 where the readings keep to no lattice that is coarser than 0.1 nm. */
    public static double of_mm(double[] reading_mm) {
        // So many readings show every step of a display; more would only take time.
        double[] sorted = Arrays.copyOf(reading_mm, Math.min(reading_mm.length, MOST_READINGS));
        Arrays.sort(sorted);
        double step = Double.POSITIVE_INFINITY;
        for (int i = 1; i < sorted.length; i++) {
            double gap = sorted[i] - sorted[i - 1];
            if (gap > LEAST_STEP_MM) {
                step = Math.min(step, gap);
            }
        }
        if (!Double.isFinite(step)) {
            return 0;
        }
        for (double r : sorted) {
            double steps = (r - sorted[0]) / step;
            if (Math.abs(steps - Math.rint(steps)) > OFF_LATTICE * Math.max(1, Math.min(10, steps / 100))) {
                return 0;
            }
        }
        return step;
    }
}
