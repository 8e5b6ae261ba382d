package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/** What the course of a touch says for tops to be its crests: where the person stopped, where the plunger hung free. */
final class CrestVotes {
    /** Of the fall: how near to the crest a person stops by eye. */
    private static final double NEAR = 0.12;
    /** After the first long stop the person jogs, and one of its levels may well lie at that of a chip. */
    private static final double JOGGED = 0.5;

    private static final double FREE_s = 0.4;
    /** No hand goes so many times deeper on its way to the stop. */
    private static final double DEEPER = 2;
    /** In falls: nobody stops on a crest so far from it. */
    private static final double FAR = 0.4;

    private final CleanTrace trace;
    private final List<Turn> turns;
    private final List<Still> stills;
    private final double leastMove_mm;

    CrestVotes(CleanTrace trace, List<Turn> turns, List<Still> stills) {
        this.trace = trace;
        this.turns = turns;
        this.stills = stills;
        leastMove_mm = trace.leastMove_mm();
    }

    /** How well these tops make sense as crests: by the stop after them, the free plunger before, and how they agree. */
    double score(List<Top> group) {
        double votes = isSweptOnAfter(group) ? 0 : 3 * stoppedNear(group);
        double lowest = trace.lowest_mm(0, trace.size());
        double level = level_mm(group);
        int last = group.get(group.size() - 1).index();
        // A free plunger stands at the far end of its travel.
        for (Still still : stills) {
            if (still.to() < group.get(0).index()
                    && still.level_mm() - lowest < leastMove_mm
                    && still.seconds(trace) > FREE_s
                    && (still.from() < 3 || isAlone(still))) {
                votes += 2;
                break;
            }
        }
        // Crests agree, turns of a hand do not.
        double topSpread = 0;
        for (Top top : group) {
            topSpread = Math.max(topSpread, Math.abs(top.level_mm() - level));
        }
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (Turn turn : turns) {
            if (!turn.top() && turn.index() > group.get(0).index() && turn.index() < last) {
                low = Math.min(low, turn.level_mm());
                high = Math.max(high, turn.level_mm());
            }
        }
        if (group.size() > 2 && high > low) {
            votes += 2 * (high - low) / (high - low + 2 * topSpread + leastMove_mm / 2);
        }
        return votes + 0.05 * group.size();
    }

    /** How near the level of these tops the person stopped after the last of them: 1 at it, 0 where on no crest. */
    double stoppedNear(List<Top> group) {
        double level = level_mm(group);
        double depth = Top.deepest_mm(group);
        double reach = Math.hypot(NEAR * depth, Math.max(trace.resolution_mm(), trace.total_mm()));
        int last = group.get(group.size() - 1).index();
        double nearest = 0;
        double counts = 1;
        boolean stood = false;
        WaitsInClicks waits = new WaitsInClicks(trace, stills, last);
        for (int k = 0; k < stills.size(); k++) {
            Still still = stills.get(k);
            if (still.from() <= last) {
                continue;
            }
            if (waits.isWait(k)) {
                counts = stood ? JOGGED : counts;
                continue;
            }
            double off = (still.level_mm() - level) / reach;
            double rests = Math.min(1, still.seconds(trace) / PassFinder.STOP_s);
            nearest = Math.max(nearest, counts * rests * FastMath.exp(-off * off / 2));
            boolean stands = still.seconds(trace) > PassFinder.STOP_s;
            stood |= stands;
            counts = stands && Math.abs(still.level_mm() - level) < FAR * depth ? JOGGED : counts;
        }
        return nearest;
    }

    /** Whether the hand swept on, and deeper, after the last of these tops: after a sweep it stops and jogs one way. */
    private boolean isSweptOnAfter(List<Top> group) {
        double deeper = DEEPER * Top.deepest_mm(group);
        int last = group.get(group.size() - 1).index();
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

    /** Whether no turn comes near the level of a still stretch: it is none of the turns of the sweep. */
    private boolean isAlone(Still still) {
        return turns.stream()
                .filter(turn -> turn.index() < still.from() || turn.index() >= still.to())
                .noneMatch(turn -> Math.abs(turn.level_mm() - still.level_mm()) < 2 * leastMove_mm);
    }

    private static double level_mm(List<Top> group) {
        return group.stream().mapToDouble(Top::level_mm).average().orElse(0);
    }
}
