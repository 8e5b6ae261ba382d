package sweepbook.cli.command;

import picocli.CommandLine.Option;

/** From which seed the trials of a proof begin. */
final class FirstSeed {
    @Option(
            names = "--first",
            defaultValue = "1",
            paramLabel = "SEED",
            description = "The first seed; the others follow (default: ${DEFAULT-VALUE}).")
    private long seed;

    long seed() {
        return seed;
    }
}
