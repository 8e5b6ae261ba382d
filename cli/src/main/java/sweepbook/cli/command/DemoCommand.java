package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.book.ProgramVersion;
import sweepbook.cli.demo.DemoRun;
import sweepbook.cli.demo.DemoRun.Comparison;
import sweepbook.cli.live.NotDeterminedException;
import sweepbook.simulator.serve.Pace;

/** Runs the whole job on the simulator, over a real TCP link. */
@Command(name = "demo", description = "Run the whole job on a simulated machine, and hold it against the truth.")
final class DemoCommand implements Callable<Integer> {
    private static final String ROW = "%-26s %12s %10s %12s %12s %10s %16s%n";

    @Spec
    private CommandSpec spec;

    @Option(
            names = "--seed",
            defaultValue = "1",
            paramLabel = "N",
            description = "Another seed is another machine (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Option(names = "--real-time", description = "At the true cadence of the indicator's link; takes minutes.")
    private boolean realTime;

    @Option(names = "--inches", description = "A controller and an indicator that show inches.")
    private boolean inches;

    @Option(
            names = "--folder",
            defaultValue = "sweepbook-demo",
            paramLabel = "DIR",
            description = "Where book and report go (default: ${DEFAULT-VALUE}).")
    private Path folder;

    @Override
    public Integer call() throws IOException, UserFault {
        PrintWriter out = spec.commandLine().getOut();
        Files.createDirectories(folder);
        Path book = free(folder, "joinery-" + (inches ? "inch-" : "") + seed);
        DemoRun run = new DemoRun(
                seed, inches ? LengthUnit.IN : LengthUnit.MM, realTime ? Pace.TRUE_CADENCE : Pace.AS_FAST_AS_THE_LINK);
        List<Comparison> compared;
        try {
            compared = run.into(book, ProgramVersion.text(), spec.commandLine().getErr());
        } catch (NotDeterminedException e) {
            throw new UserFault(ExitStatus.NOT_DETERMINED, e.getMessage());
        }
        print(out, compared);
        out.println();
        Path page = ReportCommand.beside(book);
        ReportCommand.write(book, page);
        out.println("The book is " + book + ", the report " + page + ".");
        out.flush();
        return compared.stream().allMatch(c -> c.measured().isFound()) ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private void print(PrintWriter out, List<Comparison> compared) {
        out.println();
        out.println("Simulated machine, seed " + seed + "; millimetres:");
        out.printf(ROW, "offset", "measured", "\u00b1 U95", "truth", "difference", "in U95", "by max and last");
        for (Comparison c : compared) {
            String name = c.result().planned().name();
            if (c.measured().asOptional().isEmpty()) {
                out.printf(ROW, name, "-", "-", figure(c.truth_mm()), "-", "-", "-");
                continue;
            }
            Estimate measured = c.measured().asOptional().get();
            double difference_mm = measured.value() - c.truth_mm();
            out.printf(
                    ROW,
                    name,
                    figure(measured.value()),
                    figure(measured.u95()),
                    figure(c.truth_mm()),
                    String.format(Locale.ROOT, "%+.4f", difference_mm),
                    String.format(Locale.ROOT, "%+.2f", difference_mm / measured.u95()),
                    c.plain_mm()
                            .map(plain -> String.format(Locale.ROOT, "off by %+.4f", plain - c.truth_mm()))
                            .asOptional()
                            .orElse("-"));
        }
    }

    private static String figure(double length_mm) {
        return String.format(Locale.ROOT, "%.4f", length_mm);
    }

    /** Nothing that was captured is written over, not even in a demonstration. */
    private static Path free(Path folder, String name) {
        Path file = folder.resolve(name + ".book");
        for (int i = 2; Files.exists(file); i++) {
            file = folder.resolve(name + "-" + i + ".book");
        }
        return file;
    }
}
