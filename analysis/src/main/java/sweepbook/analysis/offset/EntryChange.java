package sweepbook.analysis.offset;

import java.math.BigDecimal;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Change;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * One entry of the controller's table before and after.
 *
 * @param before in the entry's unit, as it stood
 * @param after in the entry's unit, rounded to its decimals
 * @param entry the entry after as a result: value and sources of uncertainty in millimetres (angles in degrees)
 */
public record EntryChange(BigDecimal before, BigDecimal after, Budget entry) {
    /** Whether the new entry differs from the old one, taken as it stands, by more than chance explains. */
    public Change change(EntryUnit unit) {
        return Change.between(Estimate.exact(unit.toInside(before.doubleValue())), entry.combined());
    }
}
