package sweepbook.cli.live;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.cli.book.Book.Station;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;

/** What the book is told of one attempt: all of it, and readings in lines rather than one by one. */
final class AttemptRecord {
    /** A line of readings a quarter of a second: what a crash can take, and what a disk can sync without sweat. */
    private static final double FLUSH_AFTER_S = 0.25;

    private static final int FLUSH_AT = 256;

    private final BookFile book;
    private final int number;
    private final List<Companion> companions;
    private final List<Reading> pending = new ArrayList<>();
    private final List<BookEvent> incidents = new ArrayList<>();
    private double last_s;

    /** Begins it in the book. */
    AttemptRecord(
            BookFile book,
            Station station,
            String link,
            LengthUnit unit,
            double resolution_mm,
            List<Companion> companions)
            throws IOException {
        this.book = book;
        this.number = book.nextAttempt();
        this.companions = companions;
        book.add(new BookEvent.AttemptBegun(
                number, station.offset().name(), station.touch(), link, unit, resolution_mm));
    }

    void receive(Reading reading) throws IOException {
        pending.add(reading);
        last_s = reading.time_s();
        if (last_s - pending.get(0).time_s() >= FLUSH_AFTER_S) {
            flush();
        } else {
            flushIfMany();
        }
    }

    /** Takes what the indicators beside have sent. */
    void lookBeside(Consumer<String> person) throws IOException {
        for (Companion companion : companions) {
            companion.look(person).forEach(what -> incidents.add(new BookEvent.Incident(number, last_s, what)));
        }
        flushIfMany();
    }

    /** A link that floods may bring more of these than readings: they wait for the disk together with them. */
    void incident(double time_s, String what) throws IOException {
        incidents.add(new BookEvent.Incident(number, time_s, what));
        flushIfMany();
    }

    private void flushIfMany() throws IOException {
        int waiting = pending.size() + incidents.size();
        for (Companion companion : companions) {
            waiting += companion.waiting();
        }
        if (waiting >= FLUSH_AT) {
            flush();
        }
    }

    void flush() throws IOException {
        List<BookEvent> events = new ArrayList<>();
        if (!pending.isEmpty()) {
            events.add(new BookEvent.Received(number, pending));
        }
        companions.forEach(companion -> companion.taken(number).ifPresent(events::add));
        events.addAll(incidents);
        if (!events.isEmpty()) {
            book.addAll(events);
        }
        pending.clear();
        incidents.clear();
    }

    void typed(Moment moment, String text, Fate fate, String why) throws IOException {
        flush();
        book.add(new BookEvent.Typed(number, moment, text, fate, why));
    }

    void keep() throws IOException {
        flush();
        book.add(new BookEvent.Kept(number));
    }

    void setAside(String why) throws IOException {
        flush();
        book.add(new BookEvent.SetAside(number, why));
    }
}
