package sweepbook.acquisition.journal;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.time.Clock;

/**
 * The one writer of a journal; layout in {@link Chain}, drawn:
 *
 * <pre>
 * line 1    kind "journal"   data {"format":"sweepbook","version":1, ...header}
 * line 2..  kind and data as appended; kind "opened" where a later session goes on
 * </pre>
 *
 * <p>When {@code append} returns, its lines are on the disk. A last line that a crash tore was not acknowledged; on
 * opening it is moved to a file beside the journal and told. After a failed write the file is cut back to its last whole
 * line, and the journal takes nothing more. Calls may come from several threads; they take turns.
 */
public final class Journal implements AutoCloseable {
    /** Kind of the line that a session adds when it goes on with a journal. */
    public static final String OPENED = "opened";

    private final Path file;
    private final Clock clock;
    private final FileChannel channel;
    private final TipFile tip;
    private final Chain chain;
    private final Optional<Path> setAside;
    private long size;
    private boolean failed;

    /** A line to be. */
    public record Draft(String kind, ObjectNode payload) {}

    private Journal(
            Path file, Clock clock, FileChannel channel, TipFile tip, Chain chain, long size, Optional<Path> setAside) {
        this.file = file;
        this.clock = clock;
        this.channel = channel;
        this.tip = tip;
        this.chain = chain;
        this.size = size;
        this.setAside = setAside;
    }

    /** Begins a journal; a file that is there already and holds anything is left alone. */
    public static Journal create(Path file, Clock clock, ObjectNode header) throws JournalException {
        try {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE, StandardOpenOption.CREATE);
            Journal journal =
                    new Journal(file, clock, channel, locked(file, channel), new Chain(), 0, Optional.empty());
            if (channel.size() > 0) {
                journal.close();
                throw new JournalException(file + ": is there already; open it to go on, or choose another name");
            }
            ObjectNode first = JsonNodeFactory.instance.objectNode();
            first.put("format", "sweepbook").put("version", Chain.VERSION).setAll(header);
            journal.append(Chain.FIRST_KIND, first);
            syncFolder(file);
            return journal;
        } catch (JournalException e) {
            throw e;
        } catch (IOException e) {
            throw unwritable(file, e);
        }
    }

    /** Goes on with a journal: checks its whole chain, sets a torn last line aside, notes the session in it. */
    public static Journal open(Path file, Clock clock) throws JournalException {
        JournalReader.open(file).close();
        try {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE);
            TipFile tip = locked(file, channel);
            Journal journal = null;
            try {
                JournalCheck.of(file);
                journal = goOn(file, clock, channel, tip);
                ObjectNode opened = JsonNodeFactory.instance.objectNode();
                journal.setAside.ifPresent(torn ->
                        opened.put("tornLineSetAside", torn.getFileName().toString()));
                journal.append(OPENED, opened);
                return journal;
            } catch (IOException e) {
                channel.close();
                tip.close();
                throw e;
            }
        } catch (JournalException e) {
            throw e;
        } catch (IOException e) {
            throw unwritable(file, e);
        }
    }

    private static Journal goOn(Path file, Clock clock, FileChannel channel, TipFile tip) throws IOException {
        try (JournalReader reader = JournalReader.open(file)) {
            while (reader.next().isPresent()) {
                // Only the end of the chain is wanted.
            }
            Optional<Path> setAside = Optional.empty();
            if (reader.torn().length > 0) {
                Path beside = free(file);
                Files.write(beside, reader.torn(), StandardOpenOption.CREATE_NEW, StandardOpenOption.SYNC);
                setAside = Optional.of(beside);
                channel.truncate(reader.wholeBytes());
                channel.force(true);
            }
            return new Journal(file, clock, channel, tip, reader.chain(), reader.wholeBytes(), setAside);
        }
    }

    private static Path free(Path file) {
        for (int i = 1; ; i++) {
            Path beside = file.resolveSibling(file.getFileName() + ".torn-" + i);
            if (!Files.exists(beside)) {
                return beside;
            }
        }
    }

    private static TipFile locked(Path file, FileChannel channel) throws IOException {
        Optional<TipFile> tip;
        try {
            tip = TipFile.lock(file);
        } catch (IOException e) {
            channel.close();
            throw e;
        }
        if (tip.isEmpty()) {
            channel.close();
            throw new JournalException(file + ": another sweepbook is writing this book; end that one first");
        }
        return tip.get();
    }

    /** Adds a line; it is on the disk when this returns. */
    public JournalEntry append(String kind, ObjectNode payload) throws JournalException {
        return append(List.of(new Draft(kind, payload))).get(0);
    }

    /** Adds lines with one wait for the disk. */
    public synchronized List<JournalEntry> append(List<Draft> drafts) throws JournalException {
        if (failed) {
            throw new JournalException(file + ": takes nothing more after the failed write before");
        }
        List<JournalEntry> entries = new ArrayList<>();
        ByteArrayOutputStream lines = new ByteArrayOutputStream();
        // A chain that got ahead of the file is of no use: unless the write succeeds, nothing more is taken.
        failed = true;
        for (Draft draft : drafts) {
            double monotonic_s = clock.monotonic_s();
            Instant wall = clock.wall();
            byte[] line = chain.add(monotonic_s, wall, draft.kind(), draft.payload());
            if (line.length > JournalReader.LONGEST_LINE) {
                throw new IllegalArgumentException("a line of " + line.length + " bytes; split it");
            }
            lines.writeBytes(line);
            entries.add(new JournalEntry(chain.sequence(), monotonic_s, wall, draft.kind(), draft.payload()));
        }
        write(ByteBuffer.wrap(lines.toByteArray()));
        failed = false;
        return entries;
    }

    private void write(ByteBuffer lines) throws JournalException {
        try {
            long end = size + lines.remaining();
            for (long at = size; lines.hasRemaining(); ) {
                at += channel.write(lines, at);
            }
            channel.force(false);
            tip.write(new Tip(chain.sequence(), chain.hash()));
            size = end;
        } catch (IOException e) {
            throw cutBack(e);
        }
    }

    private JournalException cutBack(IOException e) {
        try {
            channel.truncate(size);
            channel.force(true);
        } catch (IOException alsoFailed) {
            e.addSuppressed(alsoFailed);
        }
        return new JournalException(
                file + ": writing failed (" + e.getMessage() + "); what was acknowledged before is safe; make room or"
                        + " mend the disk, then open the book again",
                e);
    }

    public Path file() {
        return file;
    }

    /** Where a line torn by a crash was put when this journal was opened. */
    public Optional<Path> setAside() {
        return setAside;
    }

    private static JournalException unwritable(Path file, IOException e) {
        String what = e.getMessage();
        if (e instanceof NoSuchFileException) {
            what = "its folder does not exist; make the folder first";
        } else if (e instanceof AccessDeniedException) {
            what = "writing is not allowed there; choose another folder, or change who may write";
        } else if (Files.isDirectory(file)) {
            what = "is a directory; name a file for the book";
        } else if (e instanceof FileSystemException refused && refused.getReason() != null) {
            what = "cannot be written (" + refused.getReason() + "); choose another folder";
        }
        return new JournalException(file + ": " + what, e);
    }

    /** Makes the new name itself survive a power cut, where folders can be synced. */
    private static void syncFolder(Path file) {
        Path folder = file.toAbsolutePath().getParent();
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException refused) {
            // Windows refuses to open a folder; it keeps names safe by itself.
        }
    }

    @Override
    public synchronized void close() throws JournalException {
        failed = true;
        try {
            channel.close();
            tip.close();
        } catch (IOException e) {
            throw unwritable(file, e);
        }
    }
}
