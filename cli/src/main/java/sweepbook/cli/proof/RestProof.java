package sweepbook.cli.proof;

import java.util.Arrays;
import java.util.Optional;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.simulator.trial.RestKind;
import sweepbook.simulator.trial.RestTrial;

/** Tallies when "stable" is announced while a simulated rest is captured, against the ideal instant. */
public final class RestProof {
    /** What moves on by more than a step in so many seconds is no level. */
    private static final double CREEP_S = 5;

    private final double[] late_s;
    private int announced;
    private int never;
    private int early;
    private int disagreed;

    private RestProof(int seeds) {
        late_s = new double[seeds];
    }

    /** Runs the trials of a kind with the given seeds, from (inclusive) to (exclusive). */
    public static RestProof of(RestKind kind, long from, long to) {
        RestProof proof = new RestProof((int) (to - from));
        for (long seed = from; seed < to; seed++) {
            proof.tally(RestTrial.of(kind, seed));
        }
        return proof;
    }

    private void tally(RestTrial trial) {
        Trace trace = trial.trace();
        double q_mm = trace.resolution_mm();
        SweepReader reader = new SweepReader(new SweepSettings(Optional.empty(), q_mm));
        for (int i = 0; i < trace.size(); i++) {
            double time_s = trace.time_s(i);
            reader.add(time_s, trace.reading_mm(i));
            if (time_s < trial.from_s() || reader.now().phase() != SweepNow.Phase.STABLE) {
                continue;
            }
            Optional<StableZero> zero = reader.findings().stableZero().asOptional();
            disagreed += zero.isPresent() ? 0 : 1;
            double moves_mm = trial.level_mm().applyAsDouble(time_s + CREEP_S)
                    - trial.level_mm().applyAsDouble(time_s);
            early += Math.abs(moves_mm) > q_mm ? 1 : 0;
            late_s[announced++] = time_s - trial.ideal_s();
            return;
        }
        never++;
    }

    /** How much later than the ideal instant it is announced, in seconds, in the middle of all and at the last of ten. */
    public double late_s(double share) {
        double[] sorted = Arrays.copyOf(late_s, announced);
        Arrays.sort(sorted);
        return announced == 0 ? Double.NaN : sorted[(int) (share * (announced - 1))];
    }

    /** Rests at which nothing was announced. */
    public int never() {
        return never;
    }

    /** Announcements while the level moves on by more than a step in five seconds. */
    public int early() {
        return early;
    }

    /** Announcements at which the whole trace so far gives no zero. */
    public int disagreed() {
        return disagreed;
    }
}
