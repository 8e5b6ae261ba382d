package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import sweepbook.cli.proof.BundledOffset;
import sweepbook.cli.proof.Kind;
import sweepbook.cli.proof.Mistake;
import sweepbook.cli.proof.Slip;
import sweepbook.cli.proof.Trial;

/** Counts over simulated set-ups how often U95 holds the truth, and how often a planted mistake is named. */
@Command(
        name = "offsets",
        description = "Measure each kind of offset on simulated set-ups; count how often U95 holds the truth, and how "
                + "often a planted mistake is named.")
final class ProofOffsetsCommand implements Callable<Integer> {
    private static final double LEAST_COVERED = 0.93;
    private static final double MOST_COVERED = 0.97;
    private static final double LEAST_NAMED = 0.95;
    private static final int JOBS_FOR_A_SETUP = 10;

    @Spec
    private CommandSpec spec;

    @Mixin
    private Seeds seeds = new Seeds(1000);

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        boolean good = true;
        out.printf(
                "%-50s %12s %12s %12s%n", "kind (millimetres; angles in degrees)", "within U95", "rms off", "mean U95");
        for (Trial trial : trials()) {
            good &= prove(trial, out);
        }
        out.printf("%n%-50s %12s%n", "mistake", "told");
        for (Mistake mistake : Mistake.values()) {
            long named = seeds.all().filter(mistake::isNamed).count();
            good &= named >= LEAST_NAMED * seeds.count();
            out.printf("%-50s %12s%n", mistake.words(), percent(named));
        }
        long falseAlarms = seeds.all().filter(Mistake::isFalseAlarm).count();
        out.printf("%-50s %12s%n", "none, but a touch named", percent(falseAlarms));
        good &= slips(out);
        out.printf("%n%d set-ups of each, seeds %d to %d%n", seeds.count(), seeds.first(), seeds.last());
        out.flush();
        return good ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    /** What is told while a person types, on fewer machines: each is a whole job. */
    private boolean slips(PrintWriter out) throws IOException {
        int jobs = Math.max(1, seeds.count() / JOBS_FOR_A_SETUP);
        boolean good = true;
        out.printf("%n%-50s %12s%n", "slip at the machine, of " + jobs + " jobs", "told at once");
        for (Slip slip : Slip.values()) {
            int told = 0;
            for (long seed : seeds.all().limit(jobs).toArray()) {
                told += slip.isTold(seed) ? 1 : 0;
            }
            boolean isSlip = slip != Slip.NONE;
            good &= isSlip ? told >= LEAST_NAMED * jobs : told <= (1 - LEAST_NAMED) * jobs;
            out.printf("%-50s %12s%n", slip.words(), String.format(Locale.ROOT, "%.1f %%", 100.0 * told / jobs));
        }
        return good;
    }

    /** Every kind of measurement, then every offset of the bundled plans. */
    static List<Trial> trials() {
        return Stream.<Trial>concat(Stream.of(Kind.values()), Stream.of(BundledOffset.values()))
                .toList();
    }

    private boolean prove(Trial trial, PrintWriter out) {
        int covered = 0;
        double squares = 0;
        double u95 = 0;
        for (long seed : seeds.all().toArray()) {
            Trial.Outcome outcome = trial.of(seed);
            double off = outcome.found().value() - outcome.truth();
            covered += outcome.isCovered() ? 1 : 0;
            squares += off * off;
            u95 += outcome.found().u95();
        }
        out.printf(
                Locale.ROOT,
                "%-50s %12s %12.5f %12.5f%n",
                trial.words(),
                percent(covered),
                Math.sqrt(squares / seeds.count()),
                u95 / seeds.count());
        double rate = (double) covered / seeds.count();
        return rate >= LEAST_COVERED && rate <= MOST_COVERED;
    }

    private String percent(long count) {
        return String.format(Locale.ROOT, "%.1f %%", 100.0 * count / seeds.count());
    }
}
