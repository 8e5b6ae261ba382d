package sweepbook.acquisition.wire;

import java.math.BigDecimal;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * A unit that the indicator can show.
 *
 * @param resolution step of the display, in that unit
 * @param word what a frame carries to say that it is in this unit; empty where frames do not say
 */
public record Scale(LengthUnit unit, double resolution, Optional<String> word) {
    public double resolution_mm() {
        return unit.toMm(resolution);
    }

    /** Decimals needed to print every step of the display. */
    public int decimals() {
        return Math.max(0, BigDecimal.valueOf(resolution).stripTrailingZeros().scale());
    }
}
