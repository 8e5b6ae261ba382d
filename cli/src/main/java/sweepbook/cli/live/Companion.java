package sweepbook.cli.live;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
    private final List<Reading> readings = new ArrayList<>();
    private boolean over;

    /** The indicator's name is what its traces are called in the book. */
    public Companion(String indicator, ReadingSource source) {
        this.indicator = indicator;
        this.source = source;
    }

    /** Takes what has come, and tells of what was no reading. */
    List<String> look() {
        List<String> incidents = new ArrayList<>();
        for (int i = 0; i < AT_ONCE && !over; i++) {
            Event event = next(incidents);
            if (event instanceof Event.ReadingTaken taken) {
                readings.add(taken.reading());
            } else if (event == Event.NothingYet.NOTHING_YET) {
                break;
            } else if (event == Event.EndOfInput.END_OF_INPUT) {
                over = true;
            } else {
                incidents.add(indicator + ": " + EventWords.of(event));
            }
        }
        return incidents;
    }

    private Event next(List<String> incidents) {
        try {
            return source.next(Duration.ZERO);
        } catch (IOException e) {
            incidents.add(indicator + ": " + e.getMessage());
            return Event.EndOfInput.END_OF_INPUT;
        }
    }

    /** What comes between touches is on no record. */
    void passBy() {
        look();
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
