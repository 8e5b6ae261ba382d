package sweepbook.cli.command;

/** Ends a command with one line that says what is wrong, where, and what to do. */
final class UserFault extends Exception {
    private final int exitStatus;

    UserFault(int exitStatus, String line) {
        super(line);
        this.exitStatus = exitStatus;
    }

    static UserFault wrongUse(String line) {
        return new UserFault(ExitStatus.WRONG_USE, line);
    }

    int exitStatus() {
        return exitStatus;
    }
}
