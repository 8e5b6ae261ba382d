package sweepbook.cli.plan;

import java.math.BigDecimal;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sweepbook.analysis.offset.EntryUnit;

/** A length or an angle as a person writes it for the controller's table, {@code 86.420 mm} or {@code 0.0150 deg}. */
public record Amount(BigDecimal value, EntryUnit unit) {
    private static final Pattern WRITTEN = Pattern.compile("([+-]?\\d{1,9}(?:\\.\\d{1,9})?) (mm|in|deg)");

    public static Amount of(String text) {
        Matcher written = WRITTEN.matcher(text);
        if (!written.matches()) {
            throw new IllegalArgumentException("'" + text
                    + "' is neither length nor angle; write a number with a decimal point, a space and mm, in or deg");
        }
        return new Amount(new BigDecimal(written.group(1)), EntryUnit.of(written.group(2)));
    }

    public boolean isAngle() {
        return unit == EntryUnit.DEG;
    }

    /** In millimetres, or degrees. */
    public double inside() {
        return unit.toInside(value.doubleValue());
    }

    public int decimals() {
        return Math.max(0, value.scale());
    }

    @Override
    public String toString() {
        return value.toPlainString() + " " + unit.symbol();
    }
}
