package sweepbook.cli.command;

import java.util.stream.LongStream;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The trials of a proof, one for each seed. */
final class Seeds {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec command;

    @Option(
            names = "--seeds",
            paramLabel = "N",
            description = "How many trials, of each kind where there are several (default: ${DEFAULT-VALUE}).")
    private int count;

    @Option(
            names = "--first",
            defaultValue = "1",
            paramLabel = "SEED",
            description = "The first seed; the others follow (default: ${DEFAULT-VALUE}).")
    private long first;

    Seeds(int usual) {
        this.count = usual;
    }

    int count() {
        if (count < 1) {
            throw new ParameterException(command.commandLine(), "--seeds " + count + ": at least one trial is needed");
        }
        return count;
    }

    long first() {
        return first;
    }

    /** The last one. */
    long last() {
        return first + count() - 1;
    }

    /** Every one in turn. */
    LongStream all() {
        return LongStream.rangeClosed(first, last());
    }
}
