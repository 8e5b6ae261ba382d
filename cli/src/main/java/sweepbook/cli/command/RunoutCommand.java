package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutReader;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Finding;

/** Says what the traces of turned parts hold: full indicator movement, eccentricity, harmonics, roundness. */
@Command(name = "runout", description = "Find runout, eccentricity and roundness in traces of turned parts.")
final class RunoutCommand implements Callable<Integer> {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Spec
    private CommandSpec spec;

    @Option(names = "--json", description = "Print one JSON object a line, in the order of the files.")
    private boolean json;

    @Option(
            names = "--marks-per-turn",
            paramLabel = "N",
            defaultValue = "1",
            description = "Witness marks on one turn, equally spaced (default: ${DEFAULT-VALUE}).")
    private int marksPerTurn;

    @Option(
            names = "--order",
            paramLabel = "N",
            defaultValue = "50",
            description = "Highest undulations per revolution looked at (default: ${DEFAULT-VALUE}).")
    private int order;

    @Option(
            names = "--cutoff",
            paramLabel = "UPR",
            defaultValue = "50",
            description = "Undulations per revolution of which the roundness filter passes half"
                    + " (Gaussian; default: ${DEFAULT-VALUE}).")
    private double cutoff_upr;

    @Option(
            names = "--circle",
            paramLabel = "LSCI|MZCI|MCCI|MICI",
            defaultValue = "LSCI",
            description = "Reference circle of the out-of-roundness: least squares, minimum zone,"
                    + " minimum circumscribed, maximum inscribed (default: ${DEFAULT-VALUE}).")
    private String circle;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Trace files (CSV).")
    private List<Path> files;

    @Override
    public Integer call() throws IOException {
        RunoutSettings settings = settings();
        PrintWriter out = spec.commandLine().getOut();
        boolean allFound = true;
        for (Path file : files) {
            Trace trace = TraceCsv.read(file);
            Finding<Runout> runout = RunoutReader.read(trace, settings);
            allFound &= runout.isFound();
            if (json) {
                out.println(JSON.writeValueAsString(RunoutText.json(file, trace.unit(), runout, settings)));
            } else {
                RunoutText.table(out, file, trace.unit(), runout, settings);
            }
        }
        out.flush();
        return allFound ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private RunoutSettings settings() {
        for (ReferenceCircle known : ReferenceCircle.values()) {
            if (known.letters().equalsIgnoreCase(circle)) {
                try {
                    return new RunoutSettings(marksPerTurn, order, cutoff_upr, known, Double.NaN);
                } catch (IllegalArgumentException e) {
                    throw new ParameterException(spec.commandLine(), e.getMessage());
                }
            }
        }
        throw new ParameterException(
                spec.commandLine(), "--circle " + circle + " is not known: say LSCI, MZCI, MCCI or MICI");
    }
}
