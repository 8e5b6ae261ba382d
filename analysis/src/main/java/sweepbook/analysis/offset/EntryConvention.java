package sweepbook.analysis.offset;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * How the controller's table wants one entry; a property of the controller, never of the measurement.
 *
 * @param factor what the entry holds of the measured offset: 1 the whole, 0.5 half, 2 the full difference of a reversal
 * @param sign what becomes of the sign
 * @param use whether the result is the entry, or is added to the present one
 * @param unit of the entry
 * @param decimals the entry has after its point; rounded half away from zero (rule B of ISO 80000-1)
 */
public record EntryConvention(double factor, SignRule sign, Use use, EntryUnit unit, int decimals) {
    public enum SignRule {
        SIGNED,
        NEGATED,
        MAGNITUDE
    }

    public enum Use {
        ABSOLUTE,
        ADDED_TO_ENTRY
    }

    private static final int MOST_DECIMALS = 12; // beyond it a double in millimetres has nothing to say

    public EntryConvention {
        if (!(factor > 0) || Double.isInfinite(factor)) {
            throw new IllegalArgumentException(
                    "the factor of an entry must be above 0, not " + factor + "; for the other sign use the sign rule");
        }
        if (decimals < 0 || decimals > MOST_DECIMALS) {
            throw new IllegalArgumentException(
                    "decimals of an entry must be 0 to " + MOST_DECIMALS + ", not " + decimals);
        }
        if (sign == SignRule.MAGNITUDE && use == Use.ADDED_TO_ENTRY) {
            throw new IllegalArgumentException(
                    "a magnitude cannot be added to an entry: without its sign it would only ever grow");
        }
    }

    /**
     * The entry after the measurement.
     *
     * @param before what stands in the table now, in the entry's unit
     * @param measured the offset, in millimetres (angles in degrees)
     */
    public EntryChange change(BigDecimal before, Budget measured) {
        Budget wanted = unrounded(before, measured);
        BigDecimal after = BigDecimal.valueOf(unit.fromInside(wanted.value())).setScale(decimals, RoundingMode.HALF_UP);
        Budget entry = wanted.shiftedTo(unit.toInside(after.doubleValue()))
                .with(BudgetLine.within(
                                String.format(Locale.ROOT, "rounding of the entry to %d decimals", decimals),
                                Distribution.RECTANGULAR,
                                unit.toInside(step().doubleValue()) / 2,
                                1,
                                "the controller's table allows no more")
                        .in(unit == EntryUnit.DEG ? unit.symbol() : "mm"));
        return new EntryChange(before, after, entry);
    }

    /** The entry with all decimals, in millimetres (angles in degrees). */
    public Budget unrounded(BigDecimal before, Budget measured) {
        Budget wanted = measured.times(sign == SignRule.NEGATED ? -factor : factor);
        if (sign == SignRule.MAGNITUDE) {
            wanted = wanted.value() < 0 ? wanted.times(-1) : wanted;
        }
        if (use == Use.ADDED_TO_ENTRY) {
            wanted = wanted.shiftedTo(unit.toInside(before.doubleValue()) + wanted.value());
        }
        return wanted;
    }

    /**
     * The offset that an entry stands for: the other way round than {@link #change}.
     *
     * @param entry in its unit
     * @param like an offset of the sign that a magnitude has lost
     */
    public double standsFor(BigDecimal entry, double like) {
        double size = unit.toInside(entry.doubleValue()) / factor;
        return switch (sign) {
            case SIGNED -> size;
            case NEGATED -> -size;
            case MAGNITUDE -> Math.copySign(size, like);
        };
    }

    /**
     * The offset as it truly is.
     *
     * @param before what the present entry stands for
     * @param measured the offset itself, or where results are added to the entry, what it is off by
     */
    public Estimate truth(double before, Estimate measured) {
        return use == Use.ABSOLUTE
                ? measured
                : new Estimate(before + measured.value(), measured.stdU(), measured.degreesOfFreedom());
    }

    /** The last digit of the entry, in its unit. */
    public BigDecimal step() {
        return BigDecimal.ONE.movePointLeft(decimals);
    }
}
