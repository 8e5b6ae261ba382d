package sweepbook.acquisition.journal;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * The small file {@code BOOK.tip} beside a journal. It says how far the journal has been written at least: a chain
 * alone cannot tell that its last lines were taken away. It is written after the lines are on disk, so that a crash may
 * leave it behind them, never ahead. And it carries the lock that keeps a second writer out.
 */
final class TipFile implements AutoCloseable {
    /** Closing any channel to a file drops this process's locks on it (POSIX): a held file is not opened again. */
    private static final Map<Path, TipFile> HELD = new ConcurrentHashMap<>();

    /** Far behind the text: where locks are mandatory it must not keep a reader out. */
    private static final long LOCKED_BYTE = 1L << 40;

    private final Path file;
    private FileChannel channel;
    private volatile Tip last;

    private TipFile(Path file) {
        this.file = file;
    }

    /** Takes the lock; empty if another writer has it. */
    static Optional<TipFile> lock(Path journal) throws IOException {
        TipFile tip = new TipFile(pathOf(journal));
        if (HELD.putIfAbsent(tip.file, tip) != null) {
            return Optional.empty();
        }
        try {
            tip.channel = FileChannel.open(tip.file, StandardOpenOption.WRITE, StandardOpenOption.CREATE);
            if (tip.channel.tryLock(LOCKED_BYTE, 1, false) != null) {
                return Optional.of(tip);
            }
        } catch (IOException e) {
            tip.close();
            throw e;
        }
        tip.close();
        return Optional.empty();
    }

    /** What the file says; empty where there is none, or a crash left it unreadable. */
    static Optional<Tip> read(Path journal) throws IOException {
        Path file = pathOf(journal);
        TipFile held = HELD.get(file);
        if (held != null) {
            return Optional.ofNullable(held.last);
        }
        return Files.exists(file) ? Tip.parse(Files.readString(file, StandardCharsets.ISO_8859_1)) : Optional.empty();
    }

    /** One small write in place; not synced, since to lag behind does no harm. */
    void write(Tip tip) throws IOException {
        last = tip;
        ByteBuffer text = ByteBuffer.wrap(tip.text().getBytes(StandardCharsets.US_ASCII));
        for (long at = 0; text.hasRemaining(); ) {
            at += channel.write(text, at);
        }
    }

    /** Beside the journal itself, whatever name or link it is called by. */
    private static Path pathOf(Path journal) throws IOException {
        Path real = journal.toRealPath();
        return real.resolveSibling(real.getFileName() + ".tip");
    }

    @Override
    public void close() throws IOException {
        HELD.remove(file, this);
        if (channel != null) {
            channel.close();
        }
    }
}
