package sweepbook.cli.command;

import java.time.Duration;
import picocli.CommandLine.Option;
import sweepbook.acquisition.source.ReadingSources;

/** How long a command waits for a lost link. */
final class Patience {
    @Option(names = "--patience", paramLabel = "S", description = "How long a lost link may stay away (default: 15 s).")
    private Double patience_s;

    Duration duration() throws UserFault {
        if (patience_s == null) {
            return ReadingSources.PATIENCE;
        }
        if (!(patience_s >= 0)) {
            throw UserFault.wrongUse("--patience " + patience_s + ": must be 0 or more");
        }
        return Duration.ofMillis(Math.round(patience_s * 1e3));
    }
}
