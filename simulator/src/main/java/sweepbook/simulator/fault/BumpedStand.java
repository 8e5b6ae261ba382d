package sweepbook.simulator.fault;

import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.machine.Pose;

/** Somebody leans on the stand: from then on it stands elsewhere. */
public record BumpedStand(double at_s, double step_mm) implements Disturbance {
    @Override
    public double shift_mm(double time_s, Pose pose) {
        return time_s < at_s ? 0 : step_mm;
    }
}
