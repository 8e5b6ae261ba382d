package sweepbook.acquisition.trace;

/** A unit in which an indicator or a machine shows lengths; inside, every length is in millimetres. */
public enum LengthUnit {
    MM("mm", 1.0),
    /** 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
    IN("in", 25.4);

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

    public double toMm(double inThisUnit) {
        return inThisUnit * mm;
    }

    public double fromMm(double length_mm) {
        return length_mm / mm;
    }
}
