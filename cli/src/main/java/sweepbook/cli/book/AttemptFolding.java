package sweepbook.cli.book;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;

/** Gathers what the book says of one attempt. */
final class AttemptFolding {
    private final BookEvent.AttemptBegun begun;
    private final double wall_s;
    private final Trace.Builder trace;
    private final Map<String, Trace.Builder> beside = new LinkedHashMap<>();
    private final List<Attempt.TypedAt> typed = new ArrayList<>();
    private final List<BookEvent.Incident> incidents = new ArrayList<>();
    private Attempt.Outcome outcome = new Attempt.Outcome.BrokenOff();

    AttemptFolding(BookEvent.AttemptBegun begun, double wall_s) {
        this.begun = begun;
        this.wall_s = wall_s;
        this.trace = new Trace.Builder(begun.unit(), begun.resolution_mm());
    }

    /** What keeping it amounts to. */
    Book.Deed deed() {
        return new Book.Deed(begun.offset(), begun.touch(), OptionalInt.of(begun.attempt()));
    }

    void add(List<Reading> readings) {
        readings.forEach(trace::add);
    }

    void add(BookEvent.Beside event) {
        Trace.Builder its = beside.computeIfAbsent(
                event.indicator(), name -> new Trace.Builder(event.unit(), event.resolution_mm()));
        event.readings().forEach(its::add);
    }

    void add(BookEvent.Typed event, double typed_s) {
        if (Attempt.isTaken(event)) {
            Attempt.number(event.text());
        }
        typed.add(new Attempt.TypedAt(typed_s, event));
    }

    void add(BookEvent.Incident event) {
        incidents.add(event);
    }

    /** The last word counts: a kept attempt can be undone later. */
    void outcome(Attempt.Outcome itsOutcome) {
        boolean placed = typed.stream()
                .anyMatch(at -> at.typed().moment() == BookEvent.Moment.AT_THE_END && Attempt.isTaken(at.typed()));
        if (itsOutcome instanceof Attempt.Outcome.Kept && !placed) {
            throw new IllegalArgumentException("attempt " + begun.attempt() + " is kept without a position");
        }
        outcome = itsOutcome;
    }

    private List<Attempt.Beside> besideTraces() {
        return beside.entrySet().stream()
                .map(entry ->
                        new Attempt.Beside(entry.getKey(), entry.getValue().build()))
                .toList();
    }

    Attempt attempt() {
        return new Attempt(
                begun.attempt(),
                begun.offset(),
                begun.touch(),
                begun.link(),
                wall_s,
                trace.build(),
                besideTraces(),
                typed,
                incidents,
                outcome);
    }
}
