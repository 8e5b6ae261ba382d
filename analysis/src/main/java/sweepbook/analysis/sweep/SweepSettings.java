package sweepbook.analysis.sweep;

import java.util.Optional;

/**
 * What is known of a sweep before it is looked at.
 *
 * @param pressing what pressing does to the reading; empty to tell it from the curvature of the crests
 * @param resolution_mm step of the indicator's display in millimetres; NaN to tell it from the readings
 */
public record SweepSettings(Optional<Pressing> pressing, double resolution_mm) {
    public static final SweepSettings FROM_THE_TRACE = new SweepSettings(Optional.empty(), Double.NaN);
}
