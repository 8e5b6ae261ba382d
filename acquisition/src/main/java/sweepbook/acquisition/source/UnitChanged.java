package sweepbook.acquisition.source;

import java.io.IOException;

/** The indicator was switched to another unit in mid-trace. */
public final class UnitChanged extends IOException {
    UnitChanged(String message) {
        super(message);
    }
}
