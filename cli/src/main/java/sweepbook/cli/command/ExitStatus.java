package sweepbook.cli.command;

/** What the program's exit tells a script; see the README. */
final class ExitStatus {
    static final int DONE = 0;
    /** A check failed, or something was not determined. */
    static final int NOT_DETERMINED = 1;
    /** Wrong use, or input that cannot be read. */
    static final int WRONG_USE = 2;

    static final int LINK_LOST = 3;
    /** A fault of ours. */
    static final int OUR_FAULT = 70;

    private ExitStatus() {}
}
