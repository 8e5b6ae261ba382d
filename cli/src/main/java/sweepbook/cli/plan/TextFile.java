package sweepbook.cli.plan;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;

/** A text that a person wrote, or one line that says why it cannot be read. */
public final class TextFile {
    /** Some editors put it in front of UTF-8. */
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private TextFile() {}

    /**
     * @param wanted what is to be named, as "a plan file"
     */
    public static String read(Path file, String wanted) throws IOException {
        if (Files.isDirectory(file)) {
            throw new IOException(file + ": is a directory; name " + wanted);
        }
        try {
            String text = Files.readString(file);
            return text.startsWith(BYTE_ORDER_MARK) ? text.substring(1) : text;
        } catch (NoSuchFileException e) {
            throw new IOException(file + ": no such file; name " + wanted, e);
        } catch (CharacterCodingException e) {
            throw new IOException(file + ": is not UTF-8 text; save it as UTF-8", e);
        }
    }
}
