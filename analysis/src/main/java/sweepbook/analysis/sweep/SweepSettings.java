package sweepbook.analysis.sweep;

import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * What is known of a sweep before it is looked at.
 *
 * @param pressing what pressing does to the reading; empty to tell it from the curvature of the crests
 * @param resolution_mm step of the indicator's display in millimetres; NaN to tell it from the readings
 * @param jogStep_mm one click of the jog in millimetres; NaN to tell it from the levels of the jog
 * @param unit in which reasons and warnings speak of lengths
 * @param contour what is touched
 */
public record SweepSettings(
        Optional<Pressing> pressing, double resolution_mm, double jogStep_mm, LengthUnit unit, Contour contour) {
    public static final SweepSettings FROM_THE_TRACE = new SweepSettings(Optional.empty(), Double.NaN);

    /** Reasons and warnings speak the unit of the trace, or of millimetres where there is none. */
    public SweepSettings(Optional<Pressing> pressing, double resolution_mm) {
        this(pressing, resolution_mm, Double.NaN, LengthUnit.MM, Contour.ROUND);
    }

    SweepSettings in(LengthUnit other) {
        return new SweepSettings(pressing, resolution_mm, jogStep_mm, other, contour);
    }
}
