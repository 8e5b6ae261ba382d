package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.util.List;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import sweepbook.analysis.offset.EntryConvention.SignRule;
import sweepbook.analysis.offset.EntryConvention.Use;
import sweepbook.analysis.uncertainty.Budget;

class EntryInverseProperties {
    private static final int DECIMALS = 9;

    /** Law: what the new entry stands for is the offset as it truly is, up to the rounding of the entry. */
    @Property(tries = 500)
    void theNewEntryStandsForTheTruth(
            @ForAll SignRule sign,
            @ForAll Use use,
            @ForAll EntryUnit unit,
            @ForAll @DoubleRange(min = 0.25, max = 2) double factor,
            @ForAll @DoubleRange(min = -50, max = 50) double before,
            @ForAll @DoubleRange(min = -300, max = 300) double measured) {
        Assume.that(sign != SignRule.MAGNITUDE || use == Use.ABSOLUTE);
        EntryConvention convention = new EntryConvention(factor, sign, use, unit, DECIMALS);
        Budget offset = new Budget(measured, List.of());
        EntryChange change = convention.change(BigDecimal.valueOf(before), offset);
        double old = convention.standsFor(BigDecimal.valueOf(before), measured);
        double truth = convention.truth(old, offset.combined()).value();
        assertEquals(truth, convention.standsFor(change.after(), measured), 1e-7);
    }
}
