package sweepbook.simulator.trial;

import java.util.ArrayList;
import java.util.List;

/**
 * The least standard deviation with which marks tell their own place in a turning. Each passed within half a reading of
 * the one that carries it, so that each leaves a window; where all windows overlap every place is as likely as the next. A
 * hand's motion is taken as known. Of a spindle the speed is known only as well as the readings can tell it, and every
 * speed tilts the windows against each other: the overlaps for all of them count, each as much as it is likely.
 */
final class MarkBound {
    private static final int SPEEDS = 81;
    private static final double SIGMAS = 4;
    private static final double SLOPE_DEG = 0.01;

    private record Window(double from_middle_s, double least_deg, double most_deg) {}

    private final double middle_s;
    private final List<Window> windows = new ArrayList<>();
    private double speedInformation;

    /** @param middle_s the middle of the trace, about which speed and place are told apart */
    MarkBound(double middle_s) {
        this.middle_s = middle_s;
    }

    /** A mark: how far, at half a reading before and after the one that carries it, the part was from the mark's place. */
    void mark(double time_s, double least_deg, double most_deg) {
        windows.add(new Window(time_s - middle_s, least_deg, most_deg));
    }

    /** A reading tells the speed of a spindle, as far as the part stands out more or less there from angle to angle. */
    void reading(double time_s, TurnedPart part, double angle_deg, double variance_mm2) {
        double slope_mm_per_deg =
                (part.standsOut_mm(angle_deg + SLOPE_DEG) - part.standsOut_mm(angle_deg - SLOPE_DEG)) / (2 * SLOPE_DEG);
        double perSpeed = slope_mm_per_deg * (time_s - middle_s);
        speedInformation += perSpeed * perSpeed / variance_mm2;
    }

    /** 0 without marks. */
    double stdU_deg(boolean speedKnown) {
        if (windows.isEmpty()) {
            return 0;
        }
        double speedStdU_deg_per_s = speedKnown ? 0 : 1 / Math.sqrt(speedInformation);
        double weights = 0;
        double first = 0;
        double second = 0;
        for (int s = 0; s < SPEEDS; s++) {
            double z = SIGMAS * (2.0 * s / (SPEEDS - 1) - 1);
            double least = Double.NEGATIVE_INFINITY;
            double most = Double.POSITIVE_INFINITY;
            for (Window window : windows) {
                double tilt_deg = z * speedStdU_deg_per_s * window.from_middle_s;
                least = Math.max(least, window.least_deg + tilt_deg);
                most = Math.min(most, window.most_deg + tilt_deg);
            }
            double width = most - least;
            if (width > 0) {
                double middle = (most + least) / 2;
                double weight = Math.exp(-z * z / 2) * width;
                weights += weight;
                first += weight * middle;
                second += weight * (middle * middle + width * width / 12);
            }
        }
        double mean = first / weights;
        return Math.sqrt(Math.max(0, second / weights - mean * mean));
    }
}
