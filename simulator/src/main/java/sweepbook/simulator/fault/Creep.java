package sweepbook.simulator.fault;

import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.machine.Pose;

/** After the last motion the part, the slide or the stand gives way, ever more slowly, towards its place of rest. */
public record Creep(double from_s, double amount_mm, double decay_s) implements Disturbance {
    @Override
    public double shift_mm(double time_s, Pose pose) {
        double since_s = time_s - from_s;
        return since_s < 0 ? 0 : -amount_mm * Math.expm1(-since_s / decay_s);
    }
}
