package sweepbook.cli.plan;

import java.math.BigDecimal;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * A machine position as a person typed it.
 *
 * @param text every character of it
 * @param insisted whether the person stood by it against a doubt
 */
public record TypedPosition(String text, BigDecimal value, LengthUnit unit, boolean insisted) {
    public double mm() {
        return unit.toMm(value.doubleValue());
    }
}
