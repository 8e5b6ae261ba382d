package sweepbook.simulator.fault;

import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.machine.Pose;

/** The stand or the part moves steadily, as with warmth. */
public record Drift(double since_s, double rate_mm_per_s) implements Disturbance {
    @Override
    public double shift_mm(double time_s, Pose pose) {
        return rate_mm_per_s * (time_s - since_s);
    }
}
