package sweepbook.analysis.runout.angle;

import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * By how much the angles of an even turning must be shifted so that every mark passed within half a reading of the one
 * that carries it. Each mark allows a window of shifts; where they overlap every shift is as likely as the next, so that
 * more marks, falling elsewhere between two readings, narrow it far below a reading. See docs/runout.md.
 */
public final class MarkWindow {
    /** Speeds tried, up to so many standard uncertainties either way. */
    private static final int SPEEDS = 81;

    private static final double SIGMAS = 4;

    private MarkWindow() {}

    /**
     * The shift, in radians.
     *
     * @param turning even, known from the readings
     * @param about_s time about which its speed is uncertain
     * @param speedStdU_rad_per_s standard uncertainty of that speed
     */
    public static Finding<Estimate> shift_rad(
            TurnMarks marks, Turning turning, double about_s, double speedStdU_rad_per_s) {
        double weights = 0;
        double first = 0;
        double second = 0;
        for (int s = 0; s < SPEEDS; s++) {
            double z = SIGMAS * (2.0 * s / (SPEEDS - 1) - 1);
            double least = Double.NEGATIVE_INFINITY;
            double most = Double.POSITIVE_INFINITY;
            for (int m = 0; m < marks.count(); m++) {
                double time_s = marks.time_s()[m];
                double miss = marks.number()[m] * marks.step_rad()
                        - turning.angle_rad(time_s)
                        - z * speedStdU_rad_per_s * (time_s - about_s);
                double half = turning.speed_rad_per_s(time_s) * marks.early_s()[m];
                least = Math.max(least, miss - half);
                most = Math.min(most, miss + half);
            }
            if (most > least) {
                double width = most - least;
                double middle = (most + least) / 2;
                double weight = Math.exp(-z * z / 2) * width;
                weights += weight;
                first += weight * middle;
                second += weight * (middle * middle + width * width / 12);
            }
        }
        if (weights == 0) {
            return Finding.notDetermined("no even turning passes all marks within half a reading");
        }
        double mean = first / weights;
        double variance = Math.max(0, second / weights - mean * mean);
        return Finding.found(new Estimate(mean, Math.sqrt(variance), Double.POSITIVE_INFINITY));
    }
}
