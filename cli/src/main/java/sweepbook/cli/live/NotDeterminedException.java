package sweepbook.cli.live;

/** A touch gave no result, and nobody is there to make it again. */
public final class NotDeterminedException extends Exception {
    private static final long serialVersionUID = 1;

    public NotDeterminedException(String line) {
        super(line);
    }
}
