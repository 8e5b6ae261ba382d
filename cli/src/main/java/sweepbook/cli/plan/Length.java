package sweepbook.cli.plan;

import java.math.BigDecimal;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sweepbook.acquisition.trace.LengthUnit;

/** A length as a person writes it, {@code 10.000 mm} or {@code 0.3937 in}: the unit and the decimals stay with it. */
public record Length(BigDecimal value, LengthUnit unit) {
    private static final Pattern WRITTEN = Pattern.compile("([+-]?\\d{1,9}(?:\\.\\d{1,9})?) (mm|in)");

    public static Length of(String text) {
        Matcher written = WRITTEN.matcher(text);
        if (!written.matches()) {
            throw new IllegalArgumentException(
                    "'" + text + "' is not a length; write a number with a decimal point, a space and mm or in");
        }
        return new Length(new BigDecimal(written.group(1)), LengthUnit.of(written.group(2)));
    }

    public double mm() {
        return unit.toMm(value.doubleValue());
    }

    public int decimals() {
        return Math.max(0, value.scale());
    }

    @Override
    public String toString() {
        return value.toPlainString() + " " + unit.symbol();
    }
}
