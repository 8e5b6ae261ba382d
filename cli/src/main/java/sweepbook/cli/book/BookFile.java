package sweepbook.cli.book;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.journal.Journal;
import sweepbook.acquisition.journal.JournalEntry;
import sweepbook.acquisition.journal.JournalReader;
import sweepbook.acquisition.time.Clock;
import sweepbook.cli.plan.PlanFile;

/**
 * The book being written: an event is on the disk before {@link #add} returns, and {@link #book} says what stands there.
 * Used by one thread.
 */
public final class BookFile implements AutoCloseable {
    private final Journal journal;
    private final Book.Folding folding;

    private BookFile(Journal journal, Book.Folding folding) {
        this.journal = journal;
        this.folding = folding;
    }

    /** Begins a new book. */
    public static BookFile begin(Path file, Clock clock, BookEvent.Begun begun) throws IOException {
        Book.Folding folding = new Book.Folding();
        folding.begin(begun, PlanFile.parse("the plan", begun.planText()));
        Journal journal = Journal.create(file, clock, JsonNodeFactory.instance.objectNode());
        BookFile book = new BookFile(journal, folding);
        book.journal.append(EventCodec.kind(begun), EventCodec.payload(begun));
        return book;
    }

    /** Goes on with a book. */
    public static BookFile resume(Path file, Clock clock, BookEvent.Resumed resumed) throws IOException {
        Journal journal = Journal.open(file, clock);
        try {
            BookFile book = new BookFile(journal, fold(file));
            book.add(resumed);
            return book;
        } catch (IOException e) {
            journal.close();
            throw e;
        }
    }

    /** What a book says; its chain is checked on the way. */
    public static Book read(Path file) throws IOException {
        return fold(file).book();
    }

    private static Book.Folding fold(Path file) throws IOException {
        Book.Folding folding = new Book.Folding();
        try (JournalReader reader = JournalReader.open(file)) {
            reader.next();
            for (Optional<JournalEntry> next = reader.next(); next.isPresent(); next = reader.next()) {
                JournalEntry entry = next.get();
                if (!entry.kind().equals(Journal.OPENED)) {
                    fold(file, folding, entry);
                }
            }
        }
        if (!folding.isBegun()) {
            throw new IOException(file + ": holds no plan; the program ended before the book was begun, delete it");
        }
        return folding;
    }

    static void fold(Path file, Book.Folding folding, JournalEntry entry) throws IOException {
        try {
            BookEvent event = EventCodec.event(entry.kind(), entry.payload());
            if (event instanceof BookEvent.Begun begun) {
                folding.begin(begun, PlanFile.parse(file + ", the plan in it", begun.planText()));
            } else {
                folding.add(event, seconds(entry.wall()));
            }
        } catch (IOException | IllegalArgumentException e) {
            // A line can be whole by the chain and still say what cannot be.
            throw new IOException(file + ", line " + entry.sequence() + ": " + e.getMessage(), e);
        }
    }

    private static double seconds(Instant wall) {
        return wall.getEpochSecond() + wall.getNano() / 1e9;
    }

    public void add(BookEvent event) throws IOException {
        addAll(List.of(event));
    }

    /** Adds events with one wait for the disk. */
    public void addAll(List<BookEvent> events) throws IOException {
        List<Journal.Draft> drafts = events.stream()
                .map(event -> new Journal.Draft(EventCodec.kind(event), EventCodec.payload(event)))
                .toList();
        List<JournalEntry> entries = journal.append(drafts);
        for (int i = 0; i < entries.size(); i++) {
            folding.add(events.get(i), seconds(entries.get(i).wall()));
        }
    }

    public Book book() {
        return folding.book();
    }

    /** The number for the next attempt. */
    public int nextAttempt() {
        return folding.attempts() + 1;
    }

    /** Where a line torn by a crash was put when the book was opened again. */
    public Optional<Path> setAside() {
        return journal.setAside();
    }

    @Override
    public void close() throws IOException {
        journal.close();
    }
}
