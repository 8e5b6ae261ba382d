package sweepbook.cli.proof;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.SweepTrial;
import sweepbook.simulator.trial.SweepTrials;

/** Tallies how far the high spot and the stable zero are off the truth on simulated sweeps of one kind. */
public final class HighSpotProof {
    /** A high spot so many resolutions off is worse than none. */
    private static final double GROSS = 3;

    private final Errors highSpot = new Errors();
    private final Errors stableZero = new Errors();
    private final Map<GeneralTool, Errors> tools = new EnumMap<>(GeneralTool.class);
    private int missing;
    private int gross;
    private int zerosWrong;
    private int clicksWrong;

    /** Root mean square errors against a resolution and a bound, and how often U95 covers. */
    public static final class Errors {
        private double inResolutions;
        private double inBounds;
        private int count;
        private int covered;

        private void add(double error_mm, double resolution_mm, double bound_mm, double u95_mm) {
            count++;
            inResolutions += error_mm * error_mm / (resolution_mm * resolution_mm);
            inBounds += error_mm * error_mm / (bound_mm * bound_mm);
            covered += Math.abs(error_mm) <= u95_mm ? 1 : 0;
        }

        public int count() {
            return count;
        }

        public double rmsInResolutions() {
            return Math.sqrt(inResolutions / count);
        }

        public double rmsInBounds() {
            return Math.sqrt(inBounds / count);
        }

        public double coverage() {
            return (double) covered / count;
        }
    }

    /** Runs the trials of a kind with the given seeds, from (inclusive) to (exclusive). */
    public static HighSpotProof of(SweepKind kind, long from, long to) {
        HighSpotProof proof = new HighSpotProof();
        for (long seed = from; seed < to; seed++) {
            proof.tally(SweepTrials.of(kind, seed));
        }
        return proof;
    }

    private HighSpotProof() {
        for (GeneralTool tool : GeneralTool.values()) {
            tools.put(tool, new Errors());
        }
    }

    void tally(SweepTrial trial) {
        Trace trace = trial.trace();
        double q_mm = trace.resolution_mm();
        SweepFindings findings = SweepReader.read(trace, new SweepSettings(Optional.empty(), q_mm));
        Optional<Estimate> crest = findings.highSpot().asOptional();
        if (crest.isEmpty()) {
            missing++;
        } else {
            double error_mm = crest.get().value() - trial.crest_mm();
            if (Math.abs(error_mm) > GROSS * q_mm) {
                gross++;
            }
            highSpot.add(error_mm, q_mm, trial.crestBound_mm(), crest.get().u95());
        }
        if (!Double.isNaN(trial.zero_mm())) {
            findings.stableZero()
                    .asOptional()
                    .ifPresentOrElse(
                            zero -> stableZero.add(
                                    zero.level().value() - trial.zero_mm(),
                                    q_mm,
                                    trial.zeroBound_mm(),
                                    zero.level().u95()),
                            () -> zerosWrong++);
        } else if (findings.stableZero().isFound()) {
            zerosWrong++;
        }
        if (findings.clicks().count() != trial.clicks()) {
            clicksWrong++;
        }
        tools.forEach((tool, errors) -> errors.add(
                trial.pressingSign() * tool.highSpot_mm(sweep_mm(trial)) - trial.crest_mm(),
                q_mm,
                trial.crestBound_mm(),
                Double.NaN));
    }

    private static double[] sweep_mm(SweepTrial trial) {
        Trace trace = trial.trace();
        double[] readings_mm = new double[trace.size()];
        int n = 0;
        for (int i = 0; i < trace.size(); i++) {
            if (trace.time_s(i) >= trial.sweepFrom_s() && trace.time_s(i) <= trial.sweepTo_s()) {
                readings_mm[n++] = trial.pressingSign() * trace.reading_mm(i);
            }
        }
        return Arrays.copyOf(readings_mm, n);
    }

    public Errors highSpot() {
        return highSpot;
    }

    public Errors stableZero() {
        return stableZero;
    }

    public Errors tool(GeneralTool tool) {
        return tools.get(tool);
    }

    /** Traces whose high spot was not found, or is more than three resolutions off. */
    public int gross() {
        return missing + gross;
    }

    /** Traces whose stable zero was not found, or was found where there is none. */
    public int zerosWrong() {
        return zerosWrong;
    }

    public int clicksWrong() {
        return clicksWrong;
    }
}
