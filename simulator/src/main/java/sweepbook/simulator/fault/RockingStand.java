package sweepbook.simulator.fault;

import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.machine.Pose;

/** The stand was knocked: it swings, and the swing dies away. */
public record RockingStand(double knocked_s, double amplitude_mm, double frequency_hz, double decay_s, double phase_rad)
        implements Disturbance {
    @Override
    public double shift_mm(double time_s, Pose pose) {
        double since_s = time_s - knocked_s;
        return since_s < 0
                ? 0
                : amplitude_mm
                        * Math.exp(-since_s / decay_s)
                        * Math.cos(2 * Math.PI * frequency_hz * since_s + phase_rad);
    }
}
