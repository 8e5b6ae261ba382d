package sweepbook.cli.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.function.DoubleUnaryOperator;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.Angles;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.plan.Measurement.Beside;

/**
 * Values as a person reads them: in the unit asked for, with as many decimals as two digits of their U95 bear out
 * (JCGM 100:2008, 7.2.6).
 */
final class Figures {
    private static final MathContext TWO_DIGITS = new MathContext(2, RoundingMode.HALF_UP);
    /** No line ends between a value and its unit. */
    private static final String NB = "\u00a0";

    private static final int MOST_DECIMALS = 6;

    private Figures() {}

    /** {@code 1.2345 \u00b1 0.0021 mm}, plus or minus its U95. */
    static String withU95(Estimate length_mm, LengthUnit unit) {
        return withU95(length_mm, Shown.in(unit));
    }

    /** The same for what was found besides an offset; lengths in the unit. */
    static String withU95(Beside beside, LengthUnit unit) {
        return withU95(
                beside.found(),
                switch (beside.quantity()) {
                    case LENGTH -> Shown.in(unit);
                    case ANGLE -> Shown.in(EntryUnit.DEG);
                    case RATIO -> new Shown("", ratio -> ratio, MOST_DECIMALS);
                });
    }

    /** The same for an entry of a controller's table, in millimetres or degrees inside. */
    static String withU95(Estimate inside, EntryUnit unit) {
        return withU95(inside, Shown.in(unit));
    }

    /** {@code \u00b1 0.0021 mm}. */
    static String plusMinusU95(Estimate inside, EntryUnit unit) {
        Shown shown = Shown.in(unit);
        double u95 = shown.from(inside.u95());
        return "\u00b1" + NB + plain(u95, shown.decimals(u95)) + NB + unit.symbol();
    }

    private static String withU95(Estimate inside, Shown unit) {
        double u95 = unit.from(inside.u95());
        int decimals = unit.decimals(u95);
        return plain(unit.from(inside.value()), decimals) + NB + "\u00b1" + NB + plain(u95, decimals)
                + (unit.symbol().isEmpty() ? "" : NB + unit.symbol());
    }

    /** An angle as workshops say it. */
    static String otherWays(double angle_deg) {
        return plain(Angles.arcSeconds(angle_deg), 1) + NB + "arc seconds, " + plain(Angles.mm_per_m(angle_deg), 4) + NB
                + "mm per m, " + plain(Angles.in_per_ft(angle_deg), 5) + NB + "in per ft";
    }

    /** As the first word of a line. */
    static String capitalised(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    /** What was found with its U95, or why it was not. */
    static String withU95(Finding<Estimate> length_mm, LengthUnit unit) {
        if (length_mm instanceof Finding.NotDetermined<Estimate> not) {
            return "not determined: " + not.reason();
        }
        return withU95(length_mm.asOptional().orElseThrow(), unit);
    }

    /** {@code 1.2345 mm}, with the decimals that its U95 bears out. */
    static String value(Estimate length_mm, LengthUnit unit) {
        Shown shown = Shown.in(unit);
        return plain(shown.from(length_mm.value()), shown.decimals(shown.from(length_mm.u95()))) + NB + unit.symbol();
    }

    /** A length with no uncertainty of its own, {@code 0.01 mm}. */
    static String length(double length_mm, LengthUnit unit) {
        return length(length_mm, Shown.in(unit));
    }

    static String length(double inside, EntryUnit unit) {
        return length(inside, Shown.in(unit));
    }

    private static String length(double inside, Shown unit) {
        if (!Double.isFinite(inside)) {
            return endless(inside) + NB + unit.symbol();
        }
        BigDecimal value = rounded(unit.from(inside), unit.decimals());
        return (value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString()) + NB + unit.symbol();
    }

    /** A small part of a result, in micrometres, thousandths of an inch or thousandths of a degree. */
    static String small(double inside, EntryUnit unit) {
        return plain(1000 * Shown.in(unit).from(inside), 3)
                + switch (unit) {
                    case MM -> NB + "\u00b5m";
                    case IN -> NB + "thou";
                    case DEG -> NB + "mdeg";
                };
    }

    /** Three digits. */
    static String significant(double value) {
        BigDecimal rounded = BigDecimal.valueOf(value).round(new MathContext(3, RoundingMode.HALF_UP));
        return rounded.signum() == 0 ? "0" : Math.abs(value) < 1e-4 ? rounded.toString() : rounded.toPlainString();
    }

    static String freedom(double degreesOfFreedom) {
        return degreesOfFreedom > 10_000 ? "\u221e" : plain(degreesOfFreedom, degreesOfFreedom < 100 ? 1 : 0);
    }

    /** So many decimals; what is no finite number shows as such. */
    static String plain(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return endless(value);
        }
        BigDecimal rounded = rounded(value, decimals);
        return (rounded.signum() == 0 ? rounded.abs() : rounded).toPlainString();
    }

    private static String endless(double value) {
        return Double.isNaN(value) ? "?" : value > 0 ? "\u221e" : "-\u221e";
    }

    private static BigDecimal rounded(double value, int decimals) {
        return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    }

    /**
     * A unit to show something in.
     *
     * @param from from millimetres or degrees
     * @param decimals where no uncertainty says how many: tenths of a micrometre or their like
     */
    private record Shown(String symbol, DoubleUnaryOperator from, int decimals) {
        static Shown in(LengthUnit unit) {
            return new Shown(unit.symbol(), unit::fromMm, unit == LengthUnit.MM ? 4 : 5);
        }

        static Shown in(EntryUnit unit) {
            return new Shown(unit.symbol(), unit::fromInside, unit == EntryUnit.MM ? 4 : 5);
        }

        double from(double inside) {
            return from.applyAsDouble(inside);
        }

        int decimals(double u95) {
            if (!(u95 > 0) || Double.isInfinite(u95)) {
                return decimals;
            }
            return Math.max(
                    0,
                    Math.min(
                            MOST_DECIMALS,
                            BigDecimal.valueOf(u95).round(TWO_DIGITS).scale()));
        }
    }
}
