package sweepbook.cli.live;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.trace.Reading;
import sweepbook.cli.book.BookEvent;

/**
 * An indicator on a link of its own that is recorded beside the one that measures. Whatever becomes of its link, the job
 * goes on. Used by one thread.
 */
public final class Companion implements AutoCloseable {
    /** A look never takes so long that the indicator that measures would wait. */
    private static final int AT_ONCE = 1024;

    private final String indicator;
    private final ReadingSource source;
    private final EventWords words;
    private final List<Reading> readings = new ArrayList<>();
    private boolean over;

    /** The indicator's name is what its traces are called in the book. */
    public Companion(String indicator, ReadingSource source) {
        this.indicator = indicator;
        this.source = source;
        this.words = new EventWords(source);
    }

    /** Takes what has come, gives back what was no reading, and tells the person what is worth a line. */
    List<String> look(Consumer<String> person) {
        List<String> incidents = new ArrayList<>();
        for (int i = 0; i < AT_ONCE && !over; i++) {
            Event event = next(person, incidents);
            if (event instanceof Event.ReadingTaken taken) {
                readings.add(taken.reading());
            } else if (event instanceof Event.Incident incident) {
                incidents.add(indicator + ": " + words.of(incident));
                if (LinkWatch.isWorthTelling(incident)) {
                    tell(person, words.of(incident));
                }
            } else if (event == Event.NothingYet.NOTHING_YET) {
                break;
            } else {
                over = true;
            }
        }
        return incidents;
    }

    private Event next(Consumer<String> person, List<String> incidents) {
        try {
            return source.next(Duration.ZERO);
        } catch (IOException e) {
            incidents.add(indicator + ": " + e.getMessage());
            tell(person, e.getMessage() + "; the job goes on without it");
            return Event.EndOfInput.END_OF_INPUT;
        }
    }

    private void tell(Consumer<String> person, String what) {
        person.accept("  ! " + indicator + ": " + what);
    }

    /** What comes between touches is on no record. */
    void passBy(Consumer<String> person) {
        look(person);
        readings.clear();
    }

    /** How many readings wait to be taken over. */
    int waiting() {
        return readings.size();
    }

    /** The readings since this was asked last. */
    Optional<BookEvent> taken(int attempt) {
        if (readings.isEmpty()) {
            return Optional.empty();
        }
        BookEvent event = new BookEvent.Beside(attempt, indicator, source.unit(), source.resolution_mm(), readings);
        readings.clear();
        return Optional.of(event);
    }

    @Override
    public void close() {
        source.close();
    }
}
