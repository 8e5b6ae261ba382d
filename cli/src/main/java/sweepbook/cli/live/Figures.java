package sweepbook.cli.live;

import java.util.Locale;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.uncertainty.Estimate;

/** Lengths as a person reads them, in the unit that the indicator or the machine shows. */
public final class Figures {
    private static final int MOST_DECIMALS = 7;

    private Figures() {}

    /** As many decimals as the step has in the unit; three where it is not known. */
    private static int decimals(LengthUnit unit, double step_mm) {
        return step_mm > 0 ? unit.decimals(step_mm) : 3;
    }

    /** The step of a display, with its unit. */
    static String step(double step_mm, LengthUnit unit) {
        return String.format(Locale.ROOT, "%." + unit.decimals(step_mm) + "f %s", unit.fromMm(step_mm), unit.symbol());
    }

    /** A reading as the indicator shows it, with its sign and without its unit. */
    public static String reading(double reading_mm, LengthUnit unit, double resolution_mm) {
        return String.format(Locale.ROOT, "%+." + decimals(unit, resolution_mm) + "f", unit.fromMm(reading_mm));
    }

    /**
     * Value and half-width of its 95 % interval with the unit, one decimal finer than the step, or as many as it takes to
     * show a half-width.
     */
    public static String plusMinus(Estimate estimate, LengthUnit unit, double step_mm) {
        int decimals = decimals(unit, step_mm) + 1;
        double u95 = unit.fromMm(estimate.u95());
        while (u95 > 0 && decimals < MOST_DECIMALS && u95 < 0.5 * Math.pow(10, -decimals)) {
            decimals++;
        }
        return String.format(
                Locale.ROOT,
                "%+." + decimals + "f \u00b1 %." + decimals + "f %s",
                unit.fromMm(estimate.value()),
                u95,
                unit.symbol());
    }
}
