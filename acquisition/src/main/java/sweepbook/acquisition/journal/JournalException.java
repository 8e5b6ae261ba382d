package sweepbook.acquisition.journal;

import java.io.IOException;
import java.util.OptionalLong;

/** A journal that cannot be read or written; the message names file, line where there is one, and what to do. */
public final class JournalException extends IOException {
    private final long line;

    JournalException(String message) {
        this(message, 0);
    }

    JournalException(String message, long line) {
        super(message);
        this.line = line;
    }

    JournalException(String message, IOException cause) {
        super(message, cause);
        this.line = 0;
    }

    /** The first line that is not as it was written; empty where the fault is another. */
    public OptionalLong brokenLine() {
        return line == 0 ? OptionalLong.empty() : OptionalLong.of(line);
    }
}
