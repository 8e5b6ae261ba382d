package sweepbook.analysis.sweep;

import java.util.Locale;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * Lengths as a person reads them, one digit finer than the display.
 *
 * @param resolution_mm step of the display; NaN or 0 where it is not known
 */
record LengthWords(LengthUnit unit, double resolution_mm) {
    private static final int WITHOUT_A_STEP = 4;

    String of(double length_mm) {
        int decimals = resolution_mm > 0 ? unit.decimals(resolution_mm) + 1 : WITHOUT_A_STEP;
        return String.format(Locale.ROOT, "%." + decimals + "f %s", unit.fromMm(length_mm), unit.symbol());
    }
}
