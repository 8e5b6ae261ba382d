package sweepbook.cli.plan;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.EntryConvention;
import sweepbook.analysis.offset.Stand;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.TouchSeries.Habit;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;
import sweepbook.cli.plan.TouchSeries.Positions;

/**
 * One distance or angle that is sought, and how it is measured.
 *
 * @param name by geometry, as in {@code swivel-axis-to-spindle}
 * @param series its touches, which it may share with an offset before it
 * @param tolerance how far the true entry may lie from the one in the table, in millimetres or degrees
 * @param plausible by how much the new entry may differ from the present one before the typed position is doubted
 */
public record PlannedOffset(
        String name,
        String title,
        Method method,
        TouchSeries series,
        TableEntry entry,
        Optional<Tolerance> tolerance,
        Amount plausible) {
    public PlannedOffset {
        method.check(series.touches());
    }

    /** Whether its touches are made for it; else they are those of an offset before it. */
    public boolean hasOwnTouches() {
        return series.madeFor().equals(name);
    }

    public Axis axis() {
        return series.axis();
    }

    public Direction direction() {
        return series.direction();
    }

    public Stand stand() {
        return series.stand();
    }

    public Optional<Pressing> pressing() {
        return series.pressing();
    }

    public Habit habit() {
        return series.habit();
    }

    public Positions positions() {
        return series.positions();
    }

    public List<PlannedTouch> touches() {
        return series.touches();
    }

    /**
     * The controller's table entry.
     *
     * @param label what the controller calls it
     * @param before what stands in it now, in its unit
     */
    public record TableEntry(String label, BigDecimal before, EntryConvention convention) {}
}
