package sweepbook.cli.command;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutReader;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.simulator.trial.TurnKind;
import sweepbook.simulator.trial.TurnTrial;
import sweepbook.simulator.trial.TurnTrials;

/** Reads many simulated turned parts of each kind and tallies how far the figures are off. */
@Command(name = "runout", description = "Read many simulated turned parts; tally how far the figures are off.")
final class ProofRunoutCommand implements Callable<Integer> {
    private static final String HEAD = "%-21s %5s %5s  %-12s  %-13s  %-12s  %-15s  %-13s %-7s  %-8s  %-12s  %s%n";
    /** The share of a step within which out-of-roundness should be told. */
    private static final double NEAR_STEPS = 0.5;
    /** An estimate that is as good as can be lies within so many of its standard deviations in 95 of 100. */
    private static final double COVERING = 1.96;

    /** A trace that ends this near a whole turn may be counted either way. */
    private static final double BORDER_TURNS = 0.03;

    @Spec
    private CommandSpec spec;

    @Mixin
    private Seeds seeds = new Seeds(100);

    /** Misses of one figure, or other values: root mean square, and the share that its U95 covers. */
    private static final class Misses {
        private int count;
        private int covered;
        private double squares;

        void add(double miss, double u95, double scale) {
            count++;
            covered += Math.abs(miss) <= u95 ? 1 : 0;
            squares += miss * miss / scale / scale;
        }

        String ratio() {
            return count == 0 ? "-" : String.format(Locale.ROOT, "%.2f", Math.sqrt(squares / count));
        }

        @Override
        public String toString() {
            return count == 0 ? "-" : String.format(Locale.ROOT, "%s  %3d %%", ratio(), 100 * covered / count);
        }
    }

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        out.println("Root mean square error and share covered by U95, seeds " + seeds.first() + " to " + seeds.last()
                + ". q: step of the display; bound: Cramer-Rao with every angle known, for the high spot's angle"
                + " by the readings alone, and with the windows that marks told to the nearest reading leave (both"
                + " in degrees: readings + windows). In reach: of the"
                + " parts whose Cramer-Rao bound lets 95 of 100 be within 0.5 q, those that are.");
        out.printf(
                HEAD,
                "kind",
                "none",
                "turns",
                "ecc./bound",
                "angle/marks'",
                "/readings'",
                "bounds, deg",
                "roundness/q",
                "< 0.5 q",
                "in reach",
                "FIM/q",
                "max - min/q");
        boolean turnsRight = true;
        for (TurnKind kind : TurnKind.values()) {
            turnsRight &= row(out, kind);
            out.flush();
        }
        return turnsRight ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private boolean row(PrintWriter out, TurnKind kind) {
        int none = 0;
        int miscounted = 0;
        Misses eccentricity = new Misses();
        Misses angle = new Misses();
        Misses angleByReadings = new Misses();
        Misses readingsBound_deg = new Misses();
        Misses marksBound_deg = new Misses();
        int round = 0;
        int inReach = 0;
        int roundInReach = 0;
        Misses roundness = new Misses();
        Misses fim = new Misses();
        Misses raw = new Misses();
        for (long seed : seeds.all().toArray()) {
            TurnTrial trial = TurnTrials.of(kind, seed);
            Finding<Runout> finding = RunoutReader.read(
                    trial.trace(),
                    RunoutSettings.USUAL.withMarks(Math.max(1, trial.marksPerTurn()), MarkedReading.NEAREST));
            if (finding instanceof Finding.NotDetermined<Runout>) {
                none++;
                continue;
            }
            Runout runout = finding.asOptional().orElseThrow();
            double step_mm = trial.trace().resolution_mm();
            boolean counted =
                    runout.turns() == (int) trial.turns() || runout.turns() == (int) (trial.turns() + BORDER_TURNS);
            if (!counted) {
                miscounted++;
                spec.commandLine()
                        .getErr()
                        .println(kind + ", seed " + seed + ": " + runout.turns() + " turns for " + trial.turns());
            }
            Estimate e = runout.eccentricity();
            eccentricity.add(e.value() - trial.eccentricity_mm(), e.u95(), trial.eccentricityBound_mm());
            Estimate form = runout.outOfRoundness().get(ReferenceCircle.LEAST_SQUARES);
            roundness.add(form.value() - trial.outOfRoundness_mm(), form.u95(), step_mm);
            int near = Math.abs(form.value() - trial.outOfRoundness_mm()) < NEAR_STEPS * step_mm ? 1 : 0;
            round += near;
            if (COVERING * trial.outOfRoundnessBound_mm() < NEAR_STEPS * step_mm) {
                inReach++;
                roundInReach += near;
            }
            fim.add(runout.fim().value() - trial.fim_mm(), runout.fim().u95(), step_mm);
            raw.add(runout.rawFim_mm() - trial.fim_mm(), 0, step_mm);
            if (!Double.isNaN(trial.highSpotAngle_deg())
                    && runout.highSpotAngle_deg() instanceof Finding.Found<Estimate> found) {
                double miss = Math.IEEEremainder(found.value().value() - trial.highSpotAngle_deg(), 360);
                angle.add(miss, found.value().u95(), trial.highSpotAngleBound_deg());
                angleByReadings.add(miss, found.value().u95(), trial.readingsAngleBound_deg());
                readingsBound_deg.add(trial.readingsAngleBound_deg(), 0, 1);
                marksBound_deg.add(trial.markStdU_deg(), 0, 1);
            }
        }
        out.printf(
                HEAD,
                kind,
                none,
                miscounted,
                eccentricity,
                angle,
                angleByReadings.ratio(),
                angle.count == 0 ? "-" : readingsBound_deg.ratio() + " + " + marksBound_deg.ratio(),
                roundness,
                roundness.count == 0 ? "-" : 100 * round / roundness.count + " %",
                inReach == 0 ? "-" : roundInReach + "/" + inReach,
                fim,
                raw.ratio());
        return miscounted == 0;
    }
}
