package sweepbook.cli.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.Approach;
import sweepbook.analysis.offset.EntryChange;
import sweepbook.analysis.offset.Reversal;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.offset.TouchPair;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Change;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.GuardBand;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.OffsetResult.Outcome;
import sweepbook.cli.book.OffsetResult.TouchResult;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.PlannedOffset.Method;

/** Every offset of a book, again from its raw readings and typed positions: the same book gives the same bits. */
public final class Offsets {
    private final Book book;

    public Offsets(Book book) {
        this.book = book;
    }

    public List<OffsetResult> all() {
        return book.plan().offsets().stream().map(this::of).toList();
    }

    private OffsetResult of(PlannedOffset planned) {
        List<TouchResult> made = new ArrayList<>();
        for (int touch = 0; touch < planned.touches().size(); touch++) {
            int number = touch;
            book.kept(new Book.Station(planned, touch))
                    .ifPresent(attempt -> made.add(new TouchResult(number, attempt, findings(planned, attempt))));
        }
        return new OffsetResult(planned, made, result(planned, made));
    }

    /** What the trace of the attempt says, with what the plan knows of it. */
    public static SweepFindings findings(PlannedOffset planned, Attempt attempt) {
        return SweepReader.read(
                attempt.trace(),
                new SweepSettings(planned.pressing(), attempt.trace().resolution_mm()));
    }

    private Finding<Outcome> result(PlannedOffset planned, List<TouchResult> made) {
        if (made.size() < planned.touches().size()) {
            return Finding.notDetermined(
                    made.size() + " of " + planned.touches().size() + " touches made; measure the rest");
        }
        List<Touch> touches = new ArrayList<>();
        for (TouchResult result : made) {
            Finding<Touch> touch =
                    touch(planned, result, book.plan().machine().resolution().unit());
            if (touch instanceof Finding.NotDetermined<Touch> not) {
                return Finding.notDetermined("touch " + (result.touch() + 1) + ": " + not.reason());
            }
            touch.asOptional().ifPresent(touches::add);
        }
        return Finding.found(outcome(planned, made, touches.get(0), touches.get(1)));
    }

    private Outcome outcome(PlannedOffset planned, List<TouchResult> made, Touch first, Touch second) {
        TouchConditions conditions = book.plan().conditions();
        List<String> warnings = new ArrayList<>();
        Budget offset;
        if (planned.method() == Method.REVERSAL) {
            Reversal reversal = new Reversal(first, second);
            offset = reversal.eccentricity(conditions);
            warnings.addAll(reversal.warnings(conditions));
        } else {
            TouchPair pair = new TouchPair(first, second);
            offset = pair.offset(conditions);
            warnings.addAll(pair.warnings(conditions));
        }
        for (TouchResult result : made) {
            result.findings()
                    .warnings()
                    .forEach(warning -> warnings.add("touch " + (result.touch() + 1) + ": " + warning));
        }
        EntryChange entry = planned.entry().convention().change(planned.entry().before(), offset);
        Change change = entry.change(planned.entry().convention().unit());
        Optional<Decision> decision =
                planned.tolerance().map(t -> Decision.of(offset.combined(), t, GuardBand.EXPANDED_UNCERTAINTY));
        return new Outcome(offset, entry, change, decision, warnings);
    }

    /** The touch that an attempt was, or why it is none. */
    public static Finding<Touch> touch(PlannedOffset planned, TouchResult result, LengthUnit machineUnit) {
        Optional<Pressing> pressing = planned.pressing().or(result.findings()::pressing);
        if (pressing.isEmpty()) {
            return Finding.notDetermined(
                    "whether pressing raises or lowers the reading cannot be told; write it into the plan");
        }
        Approach approach = new Approach(planned.direction(), pressing.get(), planned.stand());
        double position_mm = result.attempt()
                .position(Moment.AT_THE_END)
                .map(p -> machineUnit.toMm(p.doubleValue()))
                .orElseThrow(() -> new IllegalStateException("a kept attempt has a position"));
        return result.findings()
                .readingAtZero()
                .map(reading -> new Touch(
                        planned.touches().get(result.touch()).feature(),
                        approach,
                        position_mm,
                        reading,
                        result.attempt().wall_s()));
    }
}
