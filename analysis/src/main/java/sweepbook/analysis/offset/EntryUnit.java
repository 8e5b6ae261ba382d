package sweepbook.analysis.offset;

import sweepbook.acquisition.trace.LengthUnit;

/** The unit in which the controller's table holds an entry. */
public enum EntryUnit {
    MM("mm"),
    IN("in"),
    /** For angles; results are degrees inside too. */
    DEG("deg");

    private final String symbol;

    EntryUnit(String symbol) {
        this.symbol = symbol;
    }

    public static EntryUnit of(String symbol) {
        for (EntryUnit unit : values()) {
            if (unit.symbol.equals(symbol)) {
                return unit;
            }
        }
        throw new IllegalArgumentException("unit '" + symbol + "' is not known: write mm, in or deg");
    }

    public String symbol() {
        return symbol;
    }

    /** From the entry's unit to millimetres, or degrees to degrees. */
    public double toInside(double inThisUnit) {
        return this == IN ? LengthUnit.IN.toMm(inThisUnit) : inThisUnit;
    }

    /** From millimetres to the entry's unit, or degrees to degrees. */
    public double fromInside(double inside) {
        return this == IN ? LengthUnit.IN.fromMm(inside) : inside;
    }
}
