package sweepbook.cli.command;

import picocli.CommandLine.Command;

/** Shows on simulated truth how good the numbers are. */
@Command(
        name = "proof",
        description = "Show on simulated truth how good the numbers are.",
        subcommands = {
            ProofHighSpotCommand.class,
            ProofJobCommand.class,
            ProofOffsetsCommand.class,
            ProofRestCommand.class,
            ProofRunoutCommand.class,
        })
final class ProofCommand {}
