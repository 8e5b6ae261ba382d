package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
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

/** Runs the demonstration's whole job on many simulated machines and tallies how far the offsets are off. */
@Command(
        name = "job",
        description = "Measure the demonstration's plan on many machines; tally how far the offsets are off.")
final class ProofJobCommand implements Callable<Integer> {
    private static final String ROW = "%-26s %8s %12s %14s %14s %20s%n";

    @Spec
    private CommandSpec spec;

    @Mixin
    private Seeds seeds = new Seeds(100);

    @Option(names = "--inches", description = "Controllers and indicators that show inches.")
    private boolean inches;

    /** How one offset fared over all machines; lengths in millimetres. */
    private static final class Tally {
        private int measured;
        private int within;
        private double sumSquares;
        private double sumU95;
        private double sumSquaresPlain;

        void add(Comparison c, Estimate estimate) {
            double off_mm = estimate.value() - c.truth_mm();
            double plain_mm = c.plain_mm().asOptional().orElse(Double.NaN) - c.truth_mm();
            measured++;
            within += Math.abs(off_mm) <= estimate.u95() ? 1 : 0;
            sumSquares += off_mm * off_mm;
            sumU95 += estimate.u95();
            sumSquaresPlain += plain_mm * plain_mm;
        }
    }

    @Override
    public Integer call() throws IOException {
        PrintWriter err = spec.commandLine().getErr();
        Map<String, Tally> tallies = new LinkedHashMap<>();
        int whole = 0;
        for (long seed : seeds.all().toArray()) {
            Path folder = Files.createTempDirectory("sweepbook-proof-");
            try {
                List<Comparison> compared = new DemoRun(
                                seed, inches ? LengthUnit.IN : LengthUnit.MM, Pace.AS_FAST_AS_THE_LINK)
                        .into(folder.resolve("job.book"), ProgramVersion.text(), new PrintWriter(Writer.nullWriter()));
                whole += tally(compared, tallies) ? 1 : 0;
            } catch (NotDeterminedException | IOException e) {
                err.println("seed " + seed + ": " + e.getMessage());
            } finally {
                delete(folder);
            }
        }
        print(tallies, whole);
        return whole == seeds.count() ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    /** Whether all offsets of the job are determined and within their U95. */
    private static boolean tally(List<Comparison> compared, Map<String, Tally> tallies) {
        boolean all = true;
        for (Comparison c : compared) {
            Tally tally = tallies.computeIfAbsent(c.result().planned().name(), name -> new Tally());
            if (c.measured().asOptional().isEmpty()) {
                all = false;
                continue;
            }
            Estimate estimate = c.measured().asOptional().get();
            tally.add(c, estimate);
            all &= Math.abs(estimate.value() - c.truth_mm()) <= estimate.u95();
        }
        return all;
    }

    private void print(Map<String, Tally> tallies, int whole) {
        PrintWriter out = spec.commandLine().getOut();
        out.printf(ROW, "offset", "measured", "within U95", "rms off, mm", "mean U95, mm", "rms by max and last");
        tallies.forEach((name, t) -> out.printf(
                ROW,
                name,
                t.measured,
                t.within,
                figure(Math.sqrt(t.sumSquares / t.measured)),
                figure(t.sumU95 / t.measured),
                figure(Math.sqrt(t.sumSquaresPlain / t.measured))));
        out.printf(
                "%d of %d machines (seeds %d to %d) with every offset within its U95%n",
                whole, seeds.count(), seeds.first(), seeds.last());
        out.flush();
    }

    private static String figure(double length_mm) {
        return String.format(Locale.ROOT, "%.5f", length_mm);
    }

    private static void delete(Path folder) throws IOException {
        try (var files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(folder);
    }
}
