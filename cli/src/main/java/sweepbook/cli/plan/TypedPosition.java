package sweepbook.cli.plan;

import java.math.BigDecimal;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * A machine position as a person typed it.
 *
 * @param text every character of it
 */
public record TypedPosition(String text, BigDecimal value, LengthUnit unit) {
    public double mm() {
        return unit.toMm(value.doubleValue());
    }
}
