package sweepbook.acquisition.trace;

import java.math.BigDecimal;
import java.util.Locale;

/** A unit in which an indicator or a machine shows lengths; inside, every length is in millimetres. */
public enum LengthUnit {
    MM("mm", 1.0),
    /** 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
    IN("in", 25.4);

    private static final int MOST_DECIMALS = 9;

    private final String symbol;
    private final double mm;

    LengthUnit(String symbol, double mm) {
        this.symbol = symbol;
        this.mm = mm;
    }

    /** The unit written {@code mm} or {@code in}. */
    public static LengthUnit of(String symbol) {
        for (LengthUnit unit : values()) {
            if (unit.symbol.equals(symbol)) {
                return unit;
            }
        }
        throw new IllegalArgumentException("unit '" + symbol + "' is not known: write mm or in");
    }

    public String symbol() {
        return symbol;
    }

    /** How many decimals a step has in this unit, nine at the most; the step is given in millimetres, above 0. */
    public int decimals(double step_mm) {
        // Twelve digits tell 0.00005 in from its 0.00127 mm, which are not exact in binary.
        double step = Double.parseDouble(String.format(Locale.ROOT, "%.12g", fromMm(step_mm)));
        int scale = BigDecimal.valueOf(step).stripTrailingZeros().scale();
        return Math.max(0, Math.min(MOST_DECIMALS, scale));
    }

    public double toMm(double inThisUnit) {
        return inThisUnit * mm;
    }

    public double fromMm(double length_mm) {
        return length_mm / mm;
    }
}
