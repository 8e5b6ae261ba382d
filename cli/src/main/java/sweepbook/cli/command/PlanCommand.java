package sweepbook.cli.command;

import picocli.CommandLine.Command;

/** Helps to write plans. */
@Command(
        name = "plan",
        description = "Help to write a plan.",
        subcommands = {PlanCheckCommand.class, PlanListCommand.class, PlanNewCommand.class, PlanShowCommand.class})
final class PlanCommand {}
