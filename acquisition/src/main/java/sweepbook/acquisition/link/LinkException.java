package sweepbook.acquisition.link;

import java.io.IOException;

/** A link that could not be opened, or was lost; the message names port, deed and remedy. */
public final class LinkException extends IOException {
    private final Kind kind;

    private enum Kind {
        NOT_OPENED,
        ABSENT,
        LOST
    }

    private LinkException(String message, Kind kind) {
        super(message);
        this.kind = kind;
    }

    public static LinkException notOpened(String message) {
        return new LinkException(message, Kind.NOT_OPENED);
    }

    /** Not opened, because nothing is there. */
    public static LinkException absent(String message) {
        return new LinkException(message, Kind.ABSENT);
    }

    public static LinkException lost(String message) {
        return new LinkException(message, Kind.LOST);
    }

    /** Whether the link was open and was lost; else it never opened. */
    public boolean isLost() {
        return kind == Kind.LOST;
    }

    /** Whether there was nothing to open, as with a cable that is pulled. */
    public boolean isAbsent() {
        return kind == Kind.ABSENT;
    }
}
