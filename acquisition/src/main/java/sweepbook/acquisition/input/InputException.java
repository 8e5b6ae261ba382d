package sweepbook.acquisition.input;

import java.io.IOException;

/** Input that cannot be used; the message is one line that says what, where, and what to do. */
public final class InputException extends IOException {
    private static final long serialVersionUID = 1;

    public InputException(String line) {
        super(line);
    }

    public InputException(String line, Throwable cause) {
        super(line, cause);
    }
}
