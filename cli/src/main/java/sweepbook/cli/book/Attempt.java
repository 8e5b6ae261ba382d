package sweepbook.cli.book;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.trace.Trace;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Incident;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookEvent.Typed;

/**
 * One try at one touch, as it stands in the book.
 *
 * @param number counts all attempts of the book from 1
 * @param touch counts the touches of the offset from 0
 * @param trace of the indicator that measures
 * @param beside what other indicators sent meanwhile
 * @param wall when it was begun, in seconds since 1970-01-01T00:00Z
 */
public record Attempt(
        int number,
        String offset,
        int touch,
        String link,
        double wall_s,
        Trace trace,
        List<Beside> beside,
        List<TypedAt> typed,
        List<Incident> incidents,
        Outcome outcome) {
    public Attempt {
        beside = List.copyOf(beside);
        typed = List.copyOf(typed);
        incidents = List.copyOf(incidents);
    }

    /** The trace of another indicator, by the name that the person gave it. */
    public record Beside(String indicator, Trace trace) {}

    /** A text as it was typed, in seconds since 1970-01-01T00:00Z. */
    public record TypedAt(double wall_s, Typed typed) {}

    /** What became of it. */
    public sealed interface Outcome {
        record Kept() implements Outcome {}

        record SetAside(String why) implements Outcome {}

        /** Neither kept nor set aside: the program ended in the middle of it. */
        record BrokenOff() implements Outcome {}
    }

    public boolean isKept() {
        return outcome instanceof Outcome.Kept;
    }

    /** The position that was taken last at that moment, in the machine's unit. */
    public Optional<BigDecimal> position(Moment moment) {
        return taken(moment).map(t -> number(t.typed().text()));
    }

    /** Whether the typed text counts as a position. */
    static boolean isTaken(Typed typed) {
        return typed.fate() == Fate.TAKEN || typed.fate() == Fate.INSISTED;
    }

    /** The number in a typed text, which may carry a unit or insist. */
    static BigDecimal number(String text) {
        try {
            return new BigDecimal(text.replaceAll("[^0-9.+-]", ""));
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException("the position '" + text + "' is no number", e);
        }
    }

    /** How many of the typed texts were taken. */
    int positionsTaken() {
        return (int) typed.stream().filter(at -> isTaken(at.typed())).count();
    }

    /** The text that was taken last at that moment, and not withdrawn since. */
    public Optional<TypedAt> taken(Moment moment) {
        return typed.stream()
                .filter(at -> at.typed().moment() == moment)
                .filter(at -> isTaken(at.typed()) || at.typed().fate() == Fate.WITHDRAWN)
                .reduce((earlier, later) -> later)
                .filter(at -> isTaken(at.typed()));
    }
}
