package sweepbook.analysis.sweep;

import java.util.List;
import java.util.stream.IntStream;

/** Tells where a person who sweeps or jogs in clicks merely waits from where he stops. */
final class WaitsInClicks {
    /** A click so many times as large as the one before is none of the same size, though one between was not seen. */
    private static final double UNLIKE = 4;
    /** A stop lasts so many times longer than the waits beside it. */
    private static final double LONGER = 2;
    /** So many waits on the flanks are those of a sweep in clicks. */
    private static final int FEWEST = 5;
    /** Nearer to the crest than this part of the fall, some clicks look like one wait. */
    private static final double FLANK = 0.2;
    /** Share of the waits; a hand may pause on a flank as well. */
    private static final double NEARLY_ALL = 0.9;

    /** A click is over so soon. */
    private static final double CLICK_s = 0.5;
    /** And takes so much of the way from one level to the next. */
    private static final double STEP = 0.5;

    private final CleanTrace trace;
    private final List<Still> stills;
    private final int last;
    private final double ofSweep_s;

    /**
     * After a sweep.
     *
     * @param stills of the trace, in time order
     * @param tops of the sweep, in time order
     */
    WaitsInClicks(CleanTrace trace, List<Still> stills, List<Top> tops) {
        this.trace = trace;
        this.stills = stills;
        last = Top.last(tops);
        ofSweep_s = ofSweep_s(tops);
    }

    /** Whether nobody stopped at a still stretch after the last top, by its place among all. */
    boolean isWait(int k) {
        return stills.get(k).seconds(trace) <= ofSweep_s
                || isPassedThrough(k) && leads(k - 1) && leads(k) && !followsStop(k);
    }

    /** Whether the reading goes through it from one wait to the next. */
    private boolean isPassedThrough(int k) {
        if (k == 0 || k == stills.size() - 1) {
            return false;
        }
        Still before = stills.get(k - 1);
        Still still = stills.get(k);
        Still after = stills.get(k + 1);
        double to = still.level_mm() - before.level_mm();
        double on = after.level_mm() - still.level_mm();
        // The rest at the end lasts as long as anybody likes.
        double after_s = k == stills.size() - 2 ? 0 : after.seconds(trace);
        double longest_s = Math.max(before.seconds(trace), after_s);
        return follows(before, still)
                && follows(still, after)
                && to * on > 0
                && Math.max(to / on, on / to) < UNLIKE
                && still.seconds(trace) < LONGER * longest_s;
    }

    /** Whether what lies between two stretches is over as soon as clicks are. */
    private boolean follows(Still from, Still to) {
        double[] t = trace.time_s();
        return t[to.from()] - t[from.to() - 1] < CLICK_s;
    }

    /** Whether a click leads from a still stretch to the next one; within a slow motion they follow without a step. */
    boolean leads(int k) {
        if (k + 1 >= stills.size()) {
            return false;
        }
        Still from = stills.get(k);
        Still to = stills.get(k + 1);
        double step_mm = Math.abs(trace.line_mm()[to.from()] - trace.line_mm()[from.to() - 1]);
        return follows(from, to) && step_mm > STEP * Math.abs(to.level_mm() - from.level_mm());
    }

    /** How long a hand that sweeps in clicks waits up to the last top; 0 where it sweeps on. */
    private double ofSweep_s(List<Top> tops) {
        double flank_mm = Top.level_mm(tops) - FLANK * Top.deepest_mm(tops);
        double[] waits = IntStream.range(0, stills.size())
                .filter(k -> stills.get(k).to() < last && stills.get(k).level_mm() < flank_mm && isPassedThrough(k))
                .mapToDouble(k -> stills.get(k).seconds(trace))
                .sorted()
                .toArray();
        return waits.length < FEWEST ? 0 : waits[(int) (NEARLY_ALL * (waits.length - 1))];
    }

    /** Whether the last top was itself the stop, from which the first click led here. */
    private boolean followsStop(int k) {
        Still before = stills.get(k - 1);
        double long_s = Math.max(PassFinder.STOP_s, LONGER * stills.get(k).seconds(trace));
        return before.from() <= last && before.seconds(trace) > long_s;
    }
}
