package sweepbook.cli.command;

import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sweepbook.simulator.trial.RestKind;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.TurnKind;

/** The program's door: picks the command and turns its end into an exit status. */
@Command(
        name = "sweepbook",
        description = "Finds the high spot and the stable zero of a dial indicator and keeps the book of a set-up.",
        versionProvider = Version.class,
        subcommands = {
            CheckCommand.class,
            DemoCommand.class,
            ExampleCommand.class,
            HelpCommand.class,
            HighSpotCommand.class,
            HistoryCommand.class,
            LearnCommand.class,
            LinksCommand.class,
            MeasureCommand.class,
            OffsetsCommand.class,
            PlanCommand.class,
            ProofCommand.class,
            ReportCommand.class,
            RunoutCommand.class,
            SimulateCommand.class,
            StudyCommand.class,
            TraceCommand.class
        })
public final class Sweepbook {
    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            scope = CommandLine.ScopeType.INHERIT,
            description = "Show this help and leave.")
    boolean help;

    @Option(
            names = {"-V", "--version"},
            versionHelp = true,
            description = "Show the version and leave.")
    boolean version;

    public static void main(String[] args) {
        CommandLine commandLine = commandLine();
        int status;
        try {
            status = commandLine.execute(args);
        } catch (Error e) {
            // The library hands on exceptions only.
            status = Faults.ourFault(e, commandLine);
        }
        System.exit(status);
    }

    /** The command line as the tests and {@link #main} run it. */
    static CommandLine commandLine() {
        return new CommandLine(new Sweepbook())
                .setCaseInsensitiveEnumValuesAllowed(true)
                .registerConverter(SweepKind.class, new Choice<>(List.of(SweepKind.values())))
                .registerConverter(RestKind.class, new Choice<>(List.of(RestKind.values())))
                .registerConverter(TurnKind.class, new Choice<>(List.of(TurnKind.values())))
                .setExecutionStrategy(new CommandLine.RunLast())
                .setParameterExceptionHandler(Faults::wrongUse)
                .setExitCodeExceptionMapper(Faults::exitStatus)
                .setExecutionExceptionHandler(Faults::handle);
    }
}
