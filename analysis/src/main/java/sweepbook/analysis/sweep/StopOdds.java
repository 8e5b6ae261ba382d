package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
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
    /** In nearest misses: so little above the crest it may be noise. */
    private static final double NOISE = 1.5;
    /** Farther above it only a drift takes it, and a stand seldom drifts so much. */
    private static final double DRIFTED = 0.15;
    /** After the longest stop the person jogs, and one of its levels may well lie at that of a chip. */
    private static final double JOGGED = 0.1;
    /** So many times longer is a stop than what was none before it. */
    private static final double CLEARLY = 1.7;
    /** From the crest the person jogs by clicks, or to the zero at once: from elsewhere he goes on to the crest. */
    private static final double SWEPT_ON = 0.2;
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
                        && miss_mm(group, still) < far_mm
                        && reached(group, still) > 0)
                .findFirst();
    }

    /** Whether a stop after these tops stands no higher than they do, but for noise. */
    boolean isNoHigher(Still stop, List<Top> group) {
        return reached(group, stop) == 1;
    }

    /**
     * Whether the person stood at the level of a still stretch again after the last top, and jogged from there: no farther at once than
     * sweeps go, and to no stop about the tops.
     */
    boolean isJoggedFrom(Still level, List<Top> group) {
        WaitsInClicks waits = new WaitsInClicks(trace, stills, group);
        double most_mm = Top.deepest_mm(group) / 2;
        return IntStream.range(0, Math.max(0, stills.size() - 1))
                .filter(k -> stills.get(k).from() > Top.last(group))
                .filter(k -> stills.get(k).seconds(trace) > PassFinder.STOP_s)
                .filter(k -> Math.abs(stills.get(k).level_mm() - level.level_mm()) < leastMove_mm)
                .anyMatch(k -> waits.leads(k) && step_mm(k) < most_mm || isLongest(k) && !comesNear(k, group));
    }

    private double step_mm(int k) {
        return Math.abs(stills.get(k + 1).level_mm() - stills.get(k).level_mm());
    }

    /** Whether anything stands about the tops after a still stretch. */
    private boolean comesNear(int k, List<Top> group) {
        double far_mm = far_mm(group);
        return stills.stream().skip(k + 1).anyMatch(still -> miss_mm(group, still) < far_mm);
    }

    private boolean isStand(Still still) {
        return still.seconds(trace) > PassFinder.STOP_s && !still.isMoving(trace);
    }

    private double far_mm(List<Top> group) {
        return Math.max(FAR * Top.farthest_mm(group), 2 * leastMove_mm);
    }

    private static double miss_mm(List<Top> group, Still still) {
        return Math.abs(Top.level_mm(group) - still.level_mm());
    }

    /** How probable it is that a reading as high as a stop is one of a stop near the crest: nothing lies above it but for noise and a drift. */
    private double reached(List<Top> group, Still still) {
        double above_mm = still.level_mm() - Top.level_mm(group) - NOISE * nearest_mm - clipped_mm(group);
        double since_s = trace.time_s()[still.from()] - trace.time_s()[Top.last(group)];
        if (above_mm <= 0) {
            return 1;
        }
        return above_mm < LastStop.drift_mm(trace, since_s) ? DRIFTED : 0;
    }

    /** How much lower than the crests the line may be that few readings show. */
    private double clipped_mm(List<Top> group) {
        return group.stream()
                .mapToDouble(top -> top.clipped_mm(trace.time_s()))
                .max()
                .orElse(0);
    }

    /** Odds of the likeliest stop after the tops. */
    private double after(List<Top> group) {
        double far_mm = far_mm(group);
        int last = Top.last(group);
        WaitsInClicks waits = new WaitsInClicks(trace, stills, group);
        double likeliest = 0;
        double stopped_s = 0;
        boolean stood = false;
        for (int k = 0; k < stills.size(); k++) {
            Still still = stills.get(k);
            if (still.from() <= last) {
                continue;
            }
            if (waits.isWait(k)) {
                stopped_s = stood ? Double.POSITIVE_INFINITY : stopped_s;
                continue;
            }
            double miss_mm = miss_mm(group, still);
            double reached = reached(group, still);
            double seconds = still.seconds(trace);
            double counts = Math.min(1, seconds / PassFinder.STOP_s)
                    * (seconds < CLEARLY * stopped_s ? JOGGED : 1)
                    * (mayJogFrom(k, waits) ? 1 : SWEPT_ON);
            likeliest = Math.max(likeliest, counts * reached * odds(miss_mm, far_mm));
            boolean stands = isStand(still);
            stood |= stands;
            if (stands && reached > 0 && miss_mm < far_mm) {
                stopped_s = Math.max(stopped_s, seconds);
            }
        }
        return likeliest;
    }

    /** Whether a click leads on from a still stretch, or the person stood there longest. */
    private boolean mayJogFrom(int k, WaitsInClicks waits) {
        return waits.leads(k) || isLongest(k);
    }

    /** Whether nobody stands for longer after a still stretch but at the end. */
    private boolean isLongest(int k) {
        double end_mm = stills.get(stills.size() - 1).level_mm();
        double seconds = stills.get(k).seconds(trace);
        return stills.stream()
                .skip(k + 1)
                .filter(still -> still.seconds(trace) > seconds && isStand(still))
                .allMatch(still -> Math.abs(still.level_mm() - end_mm) <= leastMove_mm);
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
