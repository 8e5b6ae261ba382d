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
import sweepbook.cli.proof.RestProof;
import sweepbook.simulator.trial.RestKind;

/** Captures simulated rests reading by reading, kind by kind, and tallies when "stable" is announced. */
@Command(
        name = "rest",
        description = {
            "Capture simulated rests at 2 to 2000 readings a second, a kind a row; tally when \"stable\" is announced.",
            "'late' is by how many seconds after the ideal instant, at the median and at the last of ten; 'early' counts"
                    + " announcements while the level moves on by more than a step in five seconds; 'never' rests of"
                    + " twenty seconds without one; 'alone' announcements at which the whole trace so far gives no zero."
        })
final class ProofRestCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Seeds seeds = new Seeds(100);

    @Parameters(paramLabel = "KIND", description = "Kinds of rest (default: all): ${COMPLETION-CANDIDATES}.")
    private List<RestKind> kinds = List.of(RestKind.values());

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        out.printf(
                Locale.ROOT,
                "%-22s %8s %8s %6s %6s %6s%n",
                "seeds " + seeds.first() + ".." + seeds.last(),
                "late 50%",
                "late 90%",
                "early",
                "never",
                "alone");
        for (RestKind kind : kinds) {
            RestProof proof = RestProof.of(kind, seeds.first(), seeds.last() + 1);
            out.printf(
                    Locale.ROOT,
                    "%-22s %8.2f %8.2f %6d %6d %6d%n",
                    kind,
                    proof.late_s(0.5),
                    proof.late_s(0.9),
                    proof.early(),
                    proof.never(),
                    proof.disagreed());
            out.flush();
        }
        return ExitStatus.DONE;
    }
}
