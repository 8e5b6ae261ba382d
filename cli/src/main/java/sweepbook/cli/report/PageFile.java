package sweepbook.cli.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;

/** A page on disk: whole and new, or whole and old, whatever happens on the way. */
public final class PageFile {
    /** How every page of ours begins. */
    private static final byte[] BEGINNING = "<!DOCTYPE html>".getBytes(StandardCharsets.US_ASCII);

    private PageFile() {}

    /** Writes beside the file, waits for the disk, then puts the new page in the old one's place. */
    public static void write(Path file, String html) throws IOException {
        if (Files.isDirectory(file)) {
            throw new IOException(file + ": is a directory; name a file for the page");
        }
        if (Files.exists(file) && !isPage(file)) {
            throw new IOException(file + ": is there already and is no page; choose another name");
        }
        Path beside = file.resolveSibling(file.getFileName() + ".part");
        try {
            try (FileChannel channel = FileChannel.open(
                    beside,
                    StandardOpenOption.WRITE,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.TRUNCATE_EXISTING)) {
                ByteBuffer bytes = ByteBuffer.wrap(html.getBytes(StandardCharsets.UTF_8));
                while (bytes.hasRemaining()) {
                    channel.write(bytes);
                }
                channel.force(true);
            }
            Files.move(beside, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            syncFolder(file);
        } catch (NoSuchFileException e) {
            throw new IOException(file + ": its folder does not exist; make the folder first", e);
        } catch (AccessDeniedException e) {
            throw new IOException(file + ": writing is not allowed there; choose another place with --out", e);
        } catch (IOException e) {
            Files.deleteIfExists(beside);
            throw new IOException(file + ": the page could not be written (" + e.getMessage() + ")", e);
        }
    }

    /** Only a page may be replaced: not a book, a trace or a device that somebody named by mistake. */
    private static boolean isPage(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] beginning = in.readNBytes(BEGINNING.length);
            return beginning.length == 0 || Arrays.equals(beginning, BEGINNING);
        }
    }

    /** The new name is safe from a power cut only then; Windows does not let folders be opened and needs no help. */
    private static void syncFolder(Path file) {
        try (FileChannel folder = FileChannel.open(file.toAbsolutePath().getParent(), StandardOpenOption.READ)) {
            folder.force(true);
        } catch (IOException notOnThisSystem) {
            // The page itself is on the disk; at worst a power cut brings the old one back.
        }
    }
}
