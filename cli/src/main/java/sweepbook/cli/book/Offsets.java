package sweepbook.cli.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.offset.Approach;
import sweepbook.analysis.offset.EntryChange;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Change;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.GuardBand;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.OffsetResult.Outcome;
import sweepbook.cli.book.OffsetResult.TouchResult;
import sweepbook.cli.plan.MadeTouch;
import sweepbook.cli.plan.Measurement;
import sweepbook.cli.plan.PlannedOffset;

/** Every offset of a book, again from its raw readings and typed positions: the same book gives the same bits. */
public final class Offsets {
    private static final Trace NO_TRACE = new Trace.Builder(LengthUnit.MM, Double.NaN).build();

    private final Book book;
    private final ReadingRule rule;

    public Offsets(Book book) {
        this(book, ReadingRule.ESTIMATED);
    }

    public Offsets(Book book, ReadingRule rule) {
        this.book = book;
        this.rule = rule;
    }

    public List<OffsetResult> all() {
        return book.plan().offsets().stream().map(this::of).toList();
    }

    private OffsetResult of(PlannedOffset planned) {
        List<TouchResult> made = new ArrayList<>();
        for (int touch = 0; touch < planned.touches().size(); touch++) {
            int number = touch;
            book.kept(new Book.Station(planned, touch))
                    .ifPresent(attempt -> made.add(touchResult(planned, number, attempt)));
        }
        return new OffsetResult(planned, made, result(planned, made));
    }

    private TouchResult touchResult(PlannedOffset planned, int touch, Attempt attempt) {
        return new TouchResult(touch, attempt, findings(planned, touch, attempt));
    }

    /** What the trace of the attempt says, with what the plan knows of it. */
    public SweepFindings findings(PlannedOffset planned, int touch, Attempt attempt) {
        return SweepReader.read(
                attempt.trace(),
                new SweepSettings(
                        planned.pressing(),
                        attempt.trace().resolution_mm(),
                        book.plan().machine().jogStep().mm(),
                        attempt.trace().unit(),
                        planned.touches().get(touch).contour()));
    }

    private Finding<Outcome> result(PlannedOffset planned, List<TouchResult> made) {
        if (made.size() < planned.touches().size() && planned.method().needsEveryTouch()) {
            return Finding.notDetermined(
                    made.size() + " of " + planned.touches().size() + " touches made; measure the rest");
        }
        List<MadeTouch> touches = new ArrayList<>();
        for (TouchResult result : made) {
            Finding<MadeTouch> touch = touch(planned, result);
            if (touch instanceof Finding.NotDetermined<MadeTouch> not) {
                return Finding.notDetermined("touch " + (result.touch() + 1) + ": " + not.reason());
            }
            touch.asOptional().ifPresent(touches::add);
        }
        return measured(planned, touches).map(measurement -> outcome(planned, made, measurement));
    }

    private Outcome outcome(PlannedOffset planned, List<TouchResult> made, Measurement measurement) {
        TouchConditions conditions = book.plan().conditions();
        LengthUnit shown = book.plan().machine().resolution().unit();
        Budget offset = measurement.result().apply(conditions);
        List<String> ofTouches = new ArrayList<>();
        for (TouchResult result : made) {
            result.findings()
                    .warnings()
                    .forEach(warning -> ofTouches.add("touch " + (result.touch() + 1) + ": " + warning));
        }
        EntryChange entry = entry(planned, offset);
        Change change = entry.change(planned.entry().convention().unit());
        Optional<Decision> decision =
                planned.tolerance().map(t -> Decision.of(change.difference(), t, GuardBand.EXPANDED_UNCERTAINTY));
        return new Outcome(
                offset,
                measurement.besides().apply(conditions),
                entry,
                change,
                decision,
                measurement.residuals().apply(conditions),
                LengthWords.in(shown, measurement.warnings().apply(conditions)),
                LengthWords.in(shown, ofTouches));
    }

    private static Finding<Measurement> measured(PlannedOffset planned, List<MadeTouch> touches) {
        try {
            return Finding.found(planned.method().of(touches));
        } catch (IllegalArgumentException e) {
            return Finding.notDetermined(e.getMessage());
        }
    }

    private static EntryChange entry(PlannedOffset planned, Budget offset) {
        return planned.entry().convention().change(planned.entry().before(), offset);
    }

    /**
     * The entry as it would become if the last touch of the offset were at that position; empty where a touch before it
     * is missing or of no use. The last attempt of the book is the one at it.
     */
    public Optional<EntryChange> withLastTouchAt(
            PlannedOffset planned, SweepFindings findings, double position_mm, OptionalDouble travel_mm) {
        int last = planned.touches().size() - 1;
        List<MadeTouch> touches = new ArrayList<>();
        for (int touch = 0; touch < last; touch++) {
            int number = touch;
            book.kept(new Book.Station(planned, touch))
                    .flatMap(attempt -> touch(planned, touchResult(planned, number, attempt))
                            .asOptional())
                    .ifPresent(touches::add);
        }
        Feature feature = planned.touches().get(last).feature();
        Finding<Estimate> reading = ReadingRule.ESTIMATED.reading(feature, NO_TRACE, findings);
        double time_s = book.attempts().get(book.attempts().size() - 1).wall_s();
        touch(planned, last, findings, reading, position_mm, time_s)
                .map(touch -> new MadeTouch(last, planned.touches().get(last), touch, travel_mm))
                .asOptional()
                .ifPresent(touches::add);
        return touches.size() == planned.touches().size()
                ? measured(planned, touches)
                        .map(measurement -> entry(
                                planned, measurement.result().apply(book.plan().conditions())))
                        .asOptional()
                : Optional.empty();
    }

    private Finding<MadeTouch> touch(PlannedOffset planned, TouchResult result) {
        LengthUnit unit = book.plan().machine().resolution().unit();
        Attempt attempt = result.attempt();
        double position_mm = attempt.position(Moment.AT_THE_END)
                .map(position -> unit.toMm(position.doubleValue()))
                .orElseThrow(() -> new IllegalStateException("a kept attempt has a position"));
        OptionalDouble travel_mm = attempt.position(Moment.ON_TRAVEL)
                .map(position -> OptionalDouble.of(unit.toMm(position.doubleValue())))
                .orElse(OptionalDouble.empty());
        if (planned.method().travelAxis().isPresent() && travel_mm.isEmpty()) {
            return Finding.notDetermined("has no position on the travel; make it again");
        }
        Feature feature = planned.touches().get(result.touch()).feature();
        Finding<Estimate> reading = rule.reading(feature, attempt.trace(), result.findings());
        return touch(planned, result.touch(), result.findings(), reading, position_mm, attempt.wall_s())
                .map(touch -> new MadeTouch(result.touch(), planned.touches().get(result.touch()), touch, travel_mm));
    }

    /** The touch that a reading at a position is, or why it is none. */
    private Finding<Touch> touch(
            PlannedOffset planned,
            int touch,
            SweepFindings findings,
            Finding<Estimate> reading,
            double position_mm,
            double time_s) {
        Optional<Pressing> pressing = planned.pressing().or(findings::pressing);
        if (pressing.isEmpty()) {
            return Finding.notDetermined(
                    "whether pressing raises or lowers the reading cannot be told; write it into the plan");
        }
        Approach approach = new Approach(planned.direction(), pressing.get(), planned.stand());
        Feature feature = planned.touches().get(touch).feature();
        return reading.flatMap(this::calibrated).map(r -> new Touch(feature, approach, position_mm, r, time_s));
    }

    /** The reading without what the indicator's calibration says it is off by. */
    private Finding<Estimate> calibrated(Estimate reading) {
        try {
            return Finding.found(book.plan()
                    .indicator()
                    .calibration()
                    .map(table -> table.correct(reading))
                    .orElse(reading));
        } catch (IllegalArgumentException e) {
            return Finding.notDetermined(e.getMessage());
        }
    }
}
