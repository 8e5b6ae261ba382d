package sweepbook.acquisition.journal;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Reads a journal line by line and checks the chain on the way; may run while another writes. A last line without its
 * line feed was torn by a crash before it was acknowledged: it is no entry, and {@link #torn} has it. Used by one
 * thread.
 */
public final class JournalReader implements AutoCloseable {
    /** A line holds a few thousand readings at most; beyond this the file is no journal. */
    static final int LONGEST_LINE = 16 << 20;

    private final Path file;
    private final InputStream in;
    private final Chain chain = new Chain();
    private byte[] line = new byte[4096];
    private int length;
    private long wholeBytes;
    private boolean ended;

    private JournalReader(Path file, InputStream in) {
        this.file = file;
        this.in = in;
    }

    public static JournalReader open(Path file) throws JournalException {
        try {
            if (Files.isDirectory(file)) {
                throw new JournalException(file + ": is a directory; name a book");
            }
            return new JournalReader(file, new BufferedInputStream(Files.newInputStream(file), 1 << 16));
        } catch (NoSuchFileException e) {
            throw new JournalException(file + ": no such book; check the name", e);
        } catch (JournalException e) {
            throw e;
        } catch (IOException e) {
            throw unreadable(file, e);
        }
    }

    /** All entries; the first line that breaks the chain is the fault. */
    public static List<JournalEntry> readAll(Path file) throws JournalException {
        List<JournalEntry> entries = new ArrayList<>();
        try (JournalReader reader = open(file)) {
            for (Optional<JournalEntry> entry = reader.next(); entry.isPresent(); entry = reader.next()) {
                entries.add(entry.get());
            }
        }
        return entries;
    }

    /** The next entry; empty after the last. */
    public Optional<JournalEntry> next() throws JournalException {
        if (ended || !nextLine()) {
            ended = true;
            if (chain.sequence() == 0) {
                throw new JournalException(file + ", line 1: is missing; the file holds no whole line", 1);
            }
            return Optional.empty();
        }
        try {
            JournalEntry entry = chain.follow(Arrays.copyOf(line, length));
            wholeBytes += length + 1;
            return Optional.of(entry);
        } catch (Chain.BrokenLine e) {
            long number = chain.sequence() + 1;
            String atAll = number == 1 ? "; is it a book at all?" : "";
            throw new JournalException(file + ", line " + number + ": " + e.getMessage() + atAll, number);
        }
    }

    /** After the last entry: the bytes of a torn line, none where the file ends as it should. */
    public byte[] torn() {
        return ended ? Arrays.copyOf(line, length) : new byte[0];
    }

    /** The chain as far as it has been read. */
    Chain chain() {
        return chain;
    }

    /** How many bytes the lines read so far take. */
    long wholeBytes() {
        return wholeBytes;
    }

    /** Fetches a line; false where the file ends before a line feed. */
    private boolean nextLine() throws JournalException {
        length = 0;
        try {
            for (int b = in.read(); b >= 0; b = in.read()) {
                if (b == '\n') {
                    return true;
                }
                if (length == LONGEST_LINE) {
                    throw new JournalException(
                            file + ", line " + (chain.sequence() + 1) + ": is longer than " + LONGEST_LINE
                                    + " bytes; this is no book",
                            chain.sequence() + 1);
                }
                if (length == line.length) {
                    line = Arrays.copyOf(line, 2 * length);
                }
                line[length++] = (byte) b;
            }
            return false;
        } catch (JournalException e) {
            throw e;
        } catch (IOException e) {
            throw unreadable(file, e);
        }
    }

    private static JournalException unreadable(Path file, IOException e) {
        return new JournalException(file + ": cannot be read (" + e.getMessage() + "); check who may read it", e);
    }

    @Override
    public void close() throws JournalException {
        try {
            in.close();
        } catch (IOException e) {
            throw unreadable(file, e);
        }
    }
}
