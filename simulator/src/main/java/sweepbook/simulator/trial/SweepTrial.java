package sweepbook.simulator.trial;

import java.util.List;
import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.technician.Crossing;

/**
 * A sweep of which the truth is known. Lengths are readings in millimetres, whatever the display's unit.
 *
 * @param seed makes the same trial again, with the kind
 * @param trace what was recorded
 * @param pressingSign +1 if pressing raises the reading, -1 if it lowers it
 * @param noise_mm standard deviation of a single reading before rounding
 * @param crest_mm true reading on the crest while the sweep was made, at the mean drift of its crossings
 * @param crestBound_mm least standard deviation that an unbiased estimate of it can have (Cramer-Rao), see
 *     {@link CrestBound}
 * @param zero_mm true mean reading of the last dwell, NaN where it creeps
 * @param drift_mm_per_s how fast the reading drifts all the time
 * @param zeroBound_mm least standard deviation of an estimate of it, see {@link LevelBound}
 * @param crestMiss_mm true reading on the crest less that of the dwell beside it
 * @param crossings the true passes
 * @param clicks how many jog clicks were given after the dwell on the crest
 * @param sweepFrom_s when the sweep began
 * @param sweepTo_s when it ended, at the dwell on the crest
 * @param zeroFrom_s when the last dwell began
 */
public record SweepTrial(
        SweepKind kind,
        long seed,
        Trace trace,
        int pressingSign,
        double noise_mm,
        double crest_mm,
        double crestBound_mm,
        double zero_mm,
        double drift_mm_per_s,
        double zeroBound_mm,
        double crestMiss_mm,
        List<Crossing> crossings,
        int clicks,
        double sweepFrom_s,
        double sweepTo_s,
        double zeroFrom_s) {
    public SweepTrial {
        crossings = List.copyOf(crossings);
    }

    /** True reading of the last dwell at a time within it: that in its middle, and the drift since. */
    public double zeroAt_mm(double time_s) {
        double middle_s = (zeroFrom_s + trace.time_s(trace.size() - 1)) / 2;
        return zero_mm + drift_mm_per_s * (time_s - middle_s);
    }
}
