package sweepbook.cli.command;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.cli.proof.GeneralTool;
import sweepbook.cli.proof.HighSpotProof;
import sweepbook.simulator.trial.SweepKind;

/** Reads simulated sweeps of known truth, kind by kind, and tallies how far high spot and stable zero are off. */
@Command(
        name = "highspot",
        description = {
            "Read simulated sweeps, a kind of trouble a row; tally how far high spot and stable zero are off.",
            "Errors are root mean squares: rms/q over the resolution, /bound over the least that any estimate can have"
                    + " (Cramer-Rao). 'gross' counts high spots not found or more than three resolutions off, 'cover' how"
                    + " often U95 holds the truth. The columns to the right are what general tools make of the same"
                    + " sweeps, over the bound, told where the sweep is and what pressing does.",
            "The zero is that in the middle of the stretch stated; its /bound is the root mean square error over the root"
                    + " mean square bound. 'none' counts rests without a zero, 'creep' zeros given while the last dwell"
                    + " creeps by more than a resolution in five seconds; 'miss' is the crest miss, 'clicks' how often the"
                    + " jog clicks are counted right."
        })
final class ProofHighSpotCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Seeds seeds = new Seeds(100);

    @Parameters(paramLabel = "KIND", description = "Kinds of trouble (default: all): ${COMPLETION-CANDIDATES}.")
    private List<SweepKind> kinds = List.of(SweepKind.values());

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        out.printf(
                Locale.ROOT,
                "%-24s %6s %7s %6s %7s | %7s %7s %5s %5s %7s | %7s %7s | %7s |",
                "seeds " + seeds.first() + ".." + seeds.last(),
                "rms/q",
                "/bound",
                "gross",
                "cover",
                "zero/q",
                "/bound",
                "none",
                "creep",
                "cover",
                "miss/q",
                "cover",
                "clicks");
        for (GeneralTool tool : GeneralTool.values()) {
            out.printf(Locale.ROOT, " %18s", tool.title());
        }
        out.println();
        for (SweepKind kind : kinds) {
            row(out, kind, HighSpotProof.of(kind, seeds.first(), seeds.last() + 1));
            out.flush();
        }
        return ExitStatus.DONE;
    }

    private void row(PrintWriter out, SweepKind kind, HighSpotProof proof) {
        out.printf(
                Locale.ROOT,
                "%-24s %6.3f %7.2f %6d %6.1f%% | %7.3f %7.2f %5d %5d %6.1f%% | %7.3f %6.1f%% | %6.1f%% |",
                kind,
                proof.highSpot().rmsInResolutions(),
                proof.highSpot().rmsInBounds(),
                proof.gross(),
                100 * proof.highSpot().coverage(),
                proof.stableZero().rmsInResolutions(),
                proof.stableZero().overMeanBound(),
                proof.zerosMissing(),
                proof.zerosInCreep(),
                100 * proof.stableZero().coverage(),
                proof.crestMiss().rmsInResolutions(),
                100 * proof.crestMiss().coverage(),
                100 * proof.clicksRight());
        for (GeneralTool tool : GeneralTool.values()) {
            out.printf(Locale.ROOT, " %18.1f", proof.tool(tool).rmsInBounds());
        }
        out.println();
    }
}
