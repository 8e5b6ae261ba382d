package sweepbook.acquisition.trace;

import java.io.IOException;

/** A trace file that cannot be read or written; the message names file, line and what to do. */
public final class TraceFault extends IOException {
    public TraceFault(String message) {
        super(message);
    }
}
