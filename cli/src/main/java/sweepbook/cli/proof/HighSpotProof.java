package sweepbook.cli.proof;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.StableZero;
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
    private final Errors crestMiss = new Errors();
    private final Map<GeneralTool, Errors> tools = new EnumMap<>(GeneralTool.class);
    private int missing;
    private int gross;
    private int zerosMissing;
    private int zerosInCreep;
    private int clicksRight;
    private int sweeps;

    /** Root mean square errors against a resolution and a bound, and how often U95 covers. */
    public static final class Errors {
        private double inResolutions;
        private double inBounds;
        private double boundInResolutions;
        private int count;
        private int covered;

        private void add(double error_mm, double resolution_mm, double bound_mm, double u95_mm) {
            count++;
            inResolutions += error_mm * error_mm / (resolution_mm * resolution_mm);
            inBounds += error_mm * error_mm / (bound_mm * bound_mm);
            boundInResolutions += bound_mm * bound_mm / (resolution_mm * resolution_mm);
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

        /**
         * Root mean square error over root mean square bound: for bounds that hold in the mean over many traces, as that
         * of a needle that may or may not stand near the edge of a digit.
         */
        public double overMeanBound() {
            return Math.sqrt(inResolutions / boundInResolutions);
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
        tallyZero(trial, findings.stableZero().asOptional());
        findings.crestMiss()
                .asOptional()
                .ifPresent(miss -> crestMiss.add(miss.value() - trial.crestMiss_mm(), q_mm, q_mm, miss.u95()));
        sweeps++;
        clicksRight += findings.clicks().count() == trial.clicks() ? 1 : 0;
        tools.forEach((tool, errors) -> errors.add(
                trial.pressingSign() * tool.highSpot_mm(sweep_mm(trial)) - trial.crest_mm(),
                q_mm,
                trial.crestBound_mm(),
                Double.NaN));
    }

    private void tallyZero(SweepTrial trial, Optional<StableZero> zero) {
        if (Double.isNaN(trial.zero_mm())) {
            zerosInCreep += zero.isPresent() ? 1 : 0;
        } else if (zero.isEmpty()) {
            zerosMissing++;
        } else {
            StableZero found = zero.get();
            stableZero.add(
                    found.level().value() - trial.zeroAt_mm((found.from_s() + found.to_s()) / 2),
                    trial.trace().resolution_mm(),
                    trial.zeroBound_mm(),
                    found.level().u95());
        }
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

    /** How far the crest miss is off; its bound is a resolution. */
    public Errors crestMiss() {
        return crestMiss;
    }

    /** Traces that rest at the end, and whose stable zero was not found. */
    public int zerosMissing() {
        return zerosMissing;
    }

    /** Traces that creep at the end, and of which a stable zero was given. */
    public int zerosInCreep() {
        return zerosInCreep;
    }

    /** Share of the traces of which the jog clicks were counted right. */
    public double clicksRight() {
        return (double) clicksRight / sweeps;
    }
}
