package sweepbook.simulator.fault;

import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;

/** A chip lies on the surface for a while: the contact climbs over it where it passes. */
public record Chip(double from_s, double to_s, Axis axis, double middle_mm, double halfWidth_mm, double height_mm)
        implements Disturbance {
    @Override
    public double shift_mm(double time_s, Pose pose) {
        double off = Math.abs(pose.of(axis) - middle_mm) / halfWidth_mm;
        return time_s < from_s || time_s > to_s || off >= 1 ? 0 : height_mm * (1 + Math.cos(Math.PI * off)) / 2;
    }
}
