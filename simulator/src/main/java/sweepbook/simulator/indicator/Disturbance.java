package sweepbook.simulator.indicator;

import sweepbook.simulator.machine.Pose;

/** Something that moves the feature against the indicator besides the machine's axes. */
public interface Disturbance {
    /** How much further the plunger is pushed in by it; negative where it is let out. In millimetres. */
    double shift_mm(double time_s, Pose pose);
}
