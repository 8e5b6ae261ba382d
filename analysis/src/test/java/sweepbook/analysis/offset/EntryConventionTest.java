package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.analysis.offset.EntryConvention.SignRule;
import sweepbook.analysis.offset.EntryConvention.Use;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;

class EntryConventionTest {
    private static Budget measured(double value, double u) {
        return new Budget(
                value, List.of(new BudgetLine("all", Distribution.NORMAL, u, 1, Double.POSITIVE_INFINITY, "")));
    }

    /** Law: worked by hand. */
    @ParameterizedTest
    @CsvSource({
        // factor, sign, use, unit, decimals, before, measured mm, after
        "1,   SIGNED,    ABSOLUTE,       MM,  3, 12.000, -0.12349, -0.123",
        "1,   SIGNED,    ADDED_TO_ENTRY, MM,  3, 12.000, -0.12349, 11.877",
        "1,   NEGATED,   ABSOLUTE,       MM,  3, 12.000, -0.12349,  0.123",
        "1,   NEGATED,   ADDED_TO_ENTRY, MM,  3, 12.000, -0.12349, 12.123",
        "1,   MAGNITUDE, ABSOLUTE,       MM,  3, 12.000, -0.12349,  0.123",
        "1,   MAGNITUDE, ABSOLUTE,       MM,  3, 12.000,  0.12349,  0.123",
        "2,   SIGNED,    ABSOLUTE,       MM,  3, 12.000, -0.12349, -0.247",
        "0.5, SIGNED,    ABSOLUTE,       MM,  3, 12.000, -0.12349, -0.062",
        "1,   SIGNED,    ABSOLUTE,       IN,  4,  1.5000, 25.40127,  1.0001",
        "1,   SIGNED,    ADDED_TO_ENTRY, IN,  4,  1.5000, 25.4,      2.5000",
        "2,   NEGATED,   ADDED_TO_ENTRY, IN,  4,  1.5000, 2.54,      1.3000",
        "1,   SIGNED,    ADDED_TO_ENTRY, DEG, 4, 90.0000, -0.00126, 89.9987",
        // half away from zero, on the decimal number as it is written
        "1,   SIGNED,    ABSOLUTE,       MM,  2, 0,  1.005,  1.01",
        "1,   SIGNED,    ABSOLUTE,       MM,  2, 0, -1.005, -1.01",
        "1,   SIGNED,    ABSOLUTE,       MM,  0, 0,  2.5,    3",
    })
    void entryAfter(
            double factor,
            SignRule sign,
            Use use,
            EntryUnit unit,
            int decimals,
            String before,
            double measured_mm,
            String after) {
        EntryConvention convention = new EntryConvention(factor, sign, use, unit, decimals);
        EntryChange change = convention.change(new BigDecimal(before), measured(measured_mm, 0.001));
        assertEquals(new BigDecimal(after), change.after());
        assertEquals(unit.toInside(Double.parseDouble(after)), change.entry().value(), 1e-12);
    }

    /** Law: the uncertainty is scaled by the factor, whatever the sign, and the rounding adds its own. */
    @Test
    void factorAndRoundingGoIntoTheBudget() {
        for (SignRule sign : SignRule.values()) {
            EntryConvention convention = new EntryConvention(2, sign, Use.ABSOLUTE, EntryUnit.IN, 3);
            double stdU = convention
                    .change(BigDecimal.ZERO, measured(-1, 0.003))
                    .entry()
                    .combined()
                    .stdU();
            assertEquals(Math.hypot(0.006, 0.0254 / Math.sqrt(12)), stdU, 1e-15);
        }
    }

    @Test
    void aNewEntryIsSignificantOnlyBeyondItsOwnUncertainty() {
        EntryConvention convention = new EntryConvention(1, SignRule.SIGNED, Use.ABSOLUTE, EntryUnit.MM, 3);
        BigDecimal before = new BigDecimal("0.100");
        assertFalse(convention
                .change(before, measured(0.105, 0.003))
                .change(EntryUnit.MM)
                .isSignificant());
        assertTrue(convention
                .change(before, measured(0.107, 0.003))
                .change(EntryUnit.MM)
                .isSignificant());
    }

    @Test
    void conventionsThatMakeNoSenseAreRefused() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new EntryConvention(-1, SignRule.SIGNED, Use.ABSOLUTE, EntryUnit.MM, 3));
        assertThrows(
                IllegalArgumentException.class,
                () -> new EntryConvention(1, SignRule.SIGNED, Use.ABSOLUTE, EntryUnit.MM, -1));
        assertThrows(
                IllegalArgumentException.class,
                () -> new EntryConvention(1, SignRule.MAGNITUDE, Use.ADDED_TO_ENTRY, EntryUnit.MM, 3));
    }
}
