package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * How much better a touch makes sense where the person stopped on the crest after some tops: near it, how near nobody knows, so
 * that the miss is even in its logarithm. In log odds beside a stop anywhere in what the trace holds.
 */
final class StopOdds {
    /** After some touches nobody stops on the crest, or what was seen of a stop is none. */
    private static final double NO_STOP = 0.15;
    /** In falls: nobody stops on a crest so far from it. */
    private static final double FAR = 0.4;
    /** In moves that are seen at all: so little above the crest it may be noise. */
    static final double ABOVE = 1.5;
    /** After the first long stop the person jogs, and one of its levels may well lie at that of a chip. */
    private static final double JOGGED = 0.1;
    /** No hand goes so many times deeper on its way to the stop. */
    private static final double DEEPER = 2;

    private final CleanTrace trace;
    private final List<Turn> turns;
    private final List<Still> stills;
    private final double leastMove_mm;
    private final double range_mm;
    private final double nearest_mm;

    /** @param range_mm all that the trace holds */
    StopOdds(CleanTrace trace, List<Turn> turns, List<Still> stills, double range_mm) {
        this.trace = trace;
        this.turns = turns;
        this.stills = stills;
        this.range_mm = range_mm;
        leastMove_mm = trace.leastMove_mm();
        nearest_mm = Math.max(trace.resolution_mm(), trace.total_mm());
    }

    double logOdds(List<Top> group) {
        double stopped = isSweptOnAfter(group) ? 0 : after(group) / (1 + before(group.get(0)));
        return FastMath.log((1 - NO_STOP) * stopped + NO_STOP);
    }

    /** Where the person stopped for the first time about these tops, after the last of them. */
    Optional<Still> firstStop(List<Top> group) {
        int last = Top.last(group);
        double far_mm = far_mm(group);
        return stills.stream()
                .filter(still -> still.from() > last
                        && still.seconds(trace) > PassFinder.STOP_s
                        && miss_mm(group, still) < far_mm)
                .findFirst();
    }

    private double far_mm(List<Top> group) {
        return Math.max(FAR * Top.farthest_mm(group), 2 * leastMove_mm);
    }

    /** How far a stop lies from the crest; infinite above it, but for noise and a drift, where none can be. */
    private double miss_mm(List<Top> group, Still still) {
        double miss_mm = Top.level_mm(group) - still.level_mm();
        double since_s = trace.time_s()[still.from()] - trace.time_s()[Top.last(group)];
        return miss_mm < -(ABOVE * leastMove_mm + LastStop.drift_mm(trace, since_s))
                ? Double.POSITIVE_INFINITY
                : Math.abs(miss_mm);
    }

    /** Odds of the likeliest stop after the tops. */
    private double after(List<Top> group) {
        double far_mm = far_mm(group);
        int last = Top.last(group);
        WaitsInClicks waits = new WaitsInClicks(trace, stills, group);
        double likeliest = 0;
        double counts = 1;
        boolean stood = false;
        for (int k = 0; k < stills.size(); k++) {
            Still still = stills.get(k);
            if (still.from() <= last) {
                continue;
            }
            if (waits.isWait(k)) {
                counts = stood ? JOGGED : counts;
                continue;
            }
            double miss_mm = miss_mm(group, still);
            double rests = Math.min(1, still.seconds(trace) / PassFinder.STOP_s);
            likeliest = Math.max(likeliest, counts * rests * odds(miss_mm, far_mm));
            boolean stands = still.seconds(trace) > PassFinder.STOP_s;
            stood |= stands;
            counts = stands && miss_mm < far_mm ? JOGGED : counts;
        }
        return likeliest;
    }

    /** Odds of a stop at an earlier top, where the reading never fell below the stop again: only a jog led to this one. */
    private double before(Top first) {
        double likeliest = 0;
        double lowest = first.level_mm();
        int at = trace.size();
        for (int k = stills.size() - 1; k >= 0; k--) {
            Still still = stills.get(k);
            if (still.to() > first.index()) {
                continue;
            }
            lowest = Math.min(lowest, trace.lowest_mm(still.to(), at));
            at = still.to();
            if (lowest < still.level_mm() - leastMove_mm) {
                break;
            }
            if (still.seconds(trace) > PassFinder.STOP_s) {
                likeliest = Math.max(likeliest, atTopBefore(still, first));
            }
        }
        return likeliest;
    }

    private double atTopBefore(Still still, Top first) {
        return turns.stream()
                .filter(turn ->
                        turn.top() && turn.index() < still.from() && turn.level_mm() < first.level_mm() - leastMove_mm)
                .mapToDouble(turn -> odds(Math.abs(turn.level_mm() - still.level_mm()), FAR * range_mm))
                .max()
                .orElse(0);
    }

    private double odds(double miss_mm, double far_mm) {
        return miss_mm < far_mm ? range_mm / ((miss_mm + nearest_mm) * FastMath.log1p(far_mm / nearest_mm)) : 0;
    }

    /** Whether the hand swept on, and deeper, after the last of these tops: after a sweep it stops and jogs one way. */
    private boolean isSweptOnAfter(List<Top> group) {
        double deeper = DEEPER * Top.deepest_mm(group);
        int last = Top.last(group);
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        double rise = 0;
        double fall = 0;
        for (Turn turn : turns) {
            if (turn.index() > last) {
                lowest = Math.min(lowest, turn.level_mm());
                highest = Math.max(highest, turn.level_mm());
                rise = Math.max(rise, turn.level_mm() - lowest);
                fall = Math.max(fall, highest - turn.level_mm());
            }
        }
        return Math.min(rise, fall) > deeper;
    }
}
