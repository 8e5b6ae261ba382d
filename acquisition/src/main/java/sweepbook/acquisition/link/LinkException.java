package sweepbook.acquisition.link;

import java.io.IOException;

/** A link that could not be opened, or was lost; the message names port, deed and remedy. */
public final class LinkException extends IOException {
    private final boolean lost;

    private LinkException(String message, boolean lost) {
        super(message);
        this.lost = lost;
    }

    public static LinkException notOpened(String message) {
        return new LinkException(message, false);
    }

    public static LinkException lost(String message) {
        return new LinkException(message, true);
    }

    /** Whether the link was open and was lost; else it never opened. */
    public boolean isLost() {
        return lost;
    }
}
