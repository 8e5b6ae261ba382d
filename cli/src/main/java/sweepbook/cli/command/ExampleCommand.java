package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.SweepTrial;
import sweepbook.simulator.trial.SweepTrials;
import sweepbook.simulator.trial.TurnKind;
import sweepbook.simulator.trial.TurnTrial;
import sweepbook.simulator.trial.TurnTrials;

/** Writes a simulated trace to try the other commands on, and tells the truth about it. */
@Command(
        name = "example",
        description = "Write a simulated trace to try other commands on, and tell the truth about it.")
final class ExampleCommand implements Callable<Integer> {
    /** What is simulated. */
    private static final class Kind {
        @Option(
                names = "--sweep",
                paramLabel = "KIND",
                description = "A sweep, for highspot:%n${COMPLETION-CANDIDATES}.")
        private SweepKind sweep;

        @Option(
                names = "--part",
                paramLabel = "KIND",
                description = "A turned part, for runout:%n${COMPLETION-CANDIDATES}.")
        private TurnKind part;
    }

    @Spec
    private CommandSpec spec;

    @ArgGroup(multiplicity = "1")
    private Kind kind;

    @Option(
            names = "--seed",
            defaultValue = "1",
            paramLabel = "N",
            description = "Another seed is another example (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Option(names = "--out", required = true, paramLabel = "FILE.csv", description = "The trace file to write.")
    private Path file;

    @Override
    public Integer call() throws IOException {
        if (kind.sweep != null) {
            SweepTrial trial = SweepTrials.of(kind.sweep, seed);
            TraceCsvWriter.write(file, trial.trace());
            tell(trial);
        } else {
            TurnTrial trial = TurnTrials.of(kind.part, seed);
            TraceCsvWriter.write(file, trial.trace());
            tell(trial);
        }
        return ExitStatus.DONE;
    }

    private void tell(SweepTrial trial) {
        PrintWriter out = spec.commandLine().getOut();
        Trace trace = trial.trace();
        line(out, "true high spot", trace, trial.crest_mm());
        line(out, "true stable zero", trace, trial.zero_mm());
        line(out, "true crest miss", trace, trial.crestMiss_mm());
        out.println("passes            " + trial.crossings().size());
        out.println("jog clicks        " + trial.clicks());
        out.flush();
    }

    private void tell(TurnTrial trial) {
        PrintWriter out = spec.commandLine().getOut();
        Trace trace = trial.trace();
        line(out, "true movement", trace, trial.fim_mm());
        line(out, "true eccentricity", trace, trial.eccentricity_mm());
        line(out, "out-of-roundness", trace, trial.outOfRoundness_mm());
        out.println("high spot angle   "
                + (Double.isNaN(trial.highSpotAngle_deg())
                        ? "none: no mark is its zero"
                        : String.format(Locale.ROOT, "%.2f degrees", trial.highSpotAngle_deg())));
        out.printf(Locale.ROOT, "turns             %.2f%n", trial.turns());
        out.println("marks a turn      " + trial.marksPerTurn());
        out.flush();
    }

    private static void line(PrintWriter out, String what, Trace trace, double length_mm) {
        String length = Double.isNaN(length_mm)
                ? "none: nothing comes to rest"
                : String.format(
                        Locale.ROOT,
                        "%+.6f %s",
                        trace.unit().fromMm(length_mm),
                        trace.unit().symbol());
        out.printf("%-17s %s%n", what, length);
    }
}
