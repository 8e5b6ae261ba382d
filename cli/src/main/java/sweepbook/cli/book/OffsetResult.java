package sweepbook.cli.book;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.offset.EntryChange;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Change;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.PlannedOffset;

/**
 * One offset as derived from a book.
 *
 * @param touches what the kept attempts say, in the order of the plan; those not made are missing
 * @param result the offset, or why there is none
 */
public record OffsetResult(PlannedOffset planned, List<TouchResult> touches, Finding<Outcome> result) {
    public OffsetResult {
        touches = List.copyOf(touches);
    }

    /** A kept attempt with what its trace says. */
    public record TouchResult(int touch, Attempt attempt, SweepFindings findings) {}

    /**
     * @param offset in millimetres, with its sources of uncertainty
     * @param besides what else the touches tell
     * @param entry the controller's table before and after
     * @param change whether the entry moved by more than chance
     * @param decision whether the entry in the table keeps the tolerance, where one is planned
     * @param residuals how each touch fits the others, where there are touches to spare
     * @param ownWarnings of the measurement as a whole
     * @param touchWarnings of its touches, each with the number of its touch
     */
    public record Outcome(
            Budget offset,
            List<Beside> besides,
            EntryChange entry,
            Change change,
            Optional<Decision> decision,
            List<Residual> residuals,
            List<String> ownWarnings,
            List<String> touchWarnings) {
        public Outcome {
            besides = List.copyOf(besides);
            residuals = List.copyOf(residuals);
            ownWarnings = List.copyOf(ownWarnings);
            touchWarnings = List.copyOf(touchWarnings);
        }

        /** All of them. */
        public List<String> warnings() {
            return Stream.concat(ownWarnings.stream(), touchWarnings.stream()).toList();
        }
    }
}
