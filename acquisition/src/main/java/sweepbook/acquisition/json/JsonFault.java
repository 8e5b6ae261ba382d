package sweepbook.acquisition.json;

import java.io.IOException;

/** A JSON file that does not say what it should; the message names file, line, field and what to do. */
public final class JsonFault extends IOException {
    public JsonFault(String message) {
        super(message);
    }
}
