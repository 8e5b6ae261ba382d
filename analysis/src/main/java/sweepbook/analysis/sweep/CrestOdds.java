package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * What the course of a touch says for tops to be its crests, in log odds beside turns of a hand, which lie anywhere in what the
 * trace holds.
 */
final class CrestOdds {
    /** A hand now and then turns at marks, and then its turns agree within this part of what the trace holds. */
    private static final double AT_MARKS = 0.03;

    private static final double MARKS = 0.02;
    /** A plunger that hangs free at every turn of the hand makes turns that agree, and that are flat; beyond these lies nothing. */
    private static final double AT_REST = 0.05;

    /** Probability that a hand rests at a crest in a pass, and where it turns. */
    private static final double CREST_RESTS = 0.1;

    private static final double TURN_RESTS = 0.35;
    /** Passes are alike: what their rests say at most, in log odds. */
    private static final double MOST_RESTS = 4;
    /** A chip, a stand that swings, a touch before this one: once in five touches something reads higher before the last pass. */
    private static final double TOPPED = FastMath.log(0.2);
    /** What a hand swept higher over is rather the crest, where it did not stop lower. */
    private static final double SWEPT_HIGHER = FastMath.log(0.02);
    /** Part of the time in which the same hand crosses a crest so high. */
    private static final double SLOW = 0.5;
    /** In moves that are seen at all: so little above the crests it may be noise. */
    private static final double ABOVE = 1.5;

    /** A hand, or a plunger that hangs free, comes to rest where it did between the passes. */
    private static final double AT_TURN = 0.05;

    private static final double FREE_s = 0.4;
    /** What a plunger tells that hangs free when the trace begins, in log odds. */
    private static final double FREE = 4;
    /** So many turns, no farther up than this part of what the trace holds, are those of a stand that was just touched. */
    private static final int SWINGS = 3;

    private static final double SWUNG = 0.1;
    /** Within so many readings. */
    private static final int BEGIN = 3;
    /** A top that takes less time between its half falls is more likely a stand that swings. */
    private static final double PASS_s = 0.3;

    /**
     * Log odds, by parts.
     *
     * @param course how far the tops fall, where the hand rested, whether the plunger hung free before
     * @param stop where the person stopped after them
     * @param agreement how near to each other they lie
     */
    record Odds(double course, double stop, double agreement) {
        /** Where there is no top at all. */
        static final Odds NONE = new Odds(Double.NEGATIVE_INFINITY, 0, 0);

        double sum() {
            return course + stop + agreement;
        }

        /** But for the agreement, beside turns at which the hand comes to rest again in the end. */
        double besideTurns() {
            return course + (stop > 0 ? -FastMath.log(AT_TURN + (1 - AT_TURN) * FastMath.exp(-stop)) : stop);
        }
    }

    private final CleanTrace trace;
    private final List<Turn> turns;
    private final List<Still> stills;
    private final StopOdds stops;
    private final double lowest_mm;
    private final double highest_mm;
    private final double range_mm;
    private final double leastMove_mm;

    CrestOdds(CleanTrace trace, List<Turn> turns, List<Still> stills) {
        this.trace = trace;
        this.turns = turns;
        this.stills = stills;
        leastMove_mm = trace.leastMove_mm();
        lowest_mm = trace.lowest_mm(0, trace.size());
        highest_mm = trace.highest_mm();
        range_mm = Math.max(highest_mm - lowest_mm, leastMove_mm);
        stops = new StopOdds(trace, turns, stills, range_mm);
    }

    /** How much better some tops make sense as crests than as turns of a hand. */
    Odds of(List<Top> group) {
        return new Odds(
                FastMath.log(falls(group)) + (hungFreeBefore(group) ? FREE : 0) + rests(group) + topped(group),
                stops.logOdds(group),
                agreement(group));
    }

    /**
     * The same of tops that lie near each other.
     *
     * @param near within which part of what the trace holds
     */
    static double agreement(int tops, double near) {
        double others = tops - 1;
        double atMarks = AT_MARKS * FastMath.pow(1 / Math.max(MARKS, Math.min(1, near)), others);
        return -others * FastMath.log(near) - FastMath.log(1 - AT_MARKS + atMarks);
    }

    private double agreement(List<Top> group) {
        double level = Top.level_mm(group);
        double spread = group.stream()
                .mapToDouble(top -> Math.abs(top.level_mm() - level))
                .max()
                .orElse(0);
        double agreement = agreement(group.size(), Math.min(1, (2 * spread + leastMove_mm / 2) / range_mm));
        return 2 * flat(group) >= group.size() && highest_mm <= above_mm(group)
                ? -FastMath.log(AT_REST + (1 - AT_REST) * FastMath.exp(-agreement))
                : agreement;
    }

    /** Where a hand rests in each pass it turns: it sweeps over the crest. The only pass may graze it, and end there. */
    private double rests(List<Top> group) {
        if (group.size() == 1) {
            return 0;
        }
        double log = group.stream()
                .mapToDouble(top -> swept(top)
                        * FastMath.log(isFlat(top) ? CREST_RESTS / TURN_RESTS : (1 - CREST_RESTS) / (1 - TURN_RESTS)))
                .sum();
        return Math.max(-MOST_RESTS, Math.min(MOST_RESTS, log));
    }

    private int flat(List<Top> group) {
        return (int) group.stream().filter(this::isFlat).count();
    }

    /** Nothing on a round reads higher than its crest, until the person has stopped there and jogs. */
    private double topped(List<Top> group) {
        double above_mm = above_mm(group);
        int last = Top.last(group);
        Optional<Still> stop = stops.firstStop(group);
        int until = stop.map(Still::from).orElse(trace.size());
        List<Turn> higher = turns.stream()
                .filter(turn -> turn.top() && turn.index() < until && turn.level_mm() > above_mm)
                .toList();
        boolean stoppedLower =
                stop.filter(still -> stops.isNoHigher(still, group)).isPresent();
        if (!stoppedLower && higher.stream().anyMatch(turn -> isSweptOver(turn, group))) {
            return SWEPT_HIGHER;
        }
        boolean topped = trace.highest_mm(0, last) > above_mm || higher.stream().anyMatch(turn -> turn.index() > last);
        return topped ? TOPPED : 0;
    }

    /** What lies higher than some tops lies above this. */
    private double above_mm(List<Top> group) {
        return group.stream().mapToDouble(Top::level_mm).max().orElse(0) + ABOVE * leastMove_mm;
    }

    /** Whether a hand that crossed some tops may have taken as long over a higher one: over a chip or a burr it is sooner. */
    private boolean isSweptOver(Turn turn, List<Top> group) {
        double level_mm = Top.level_mm(group);
        double above_mm = turn.level_mm() - level_mm;
        double even_s = group.stream()
                .mapToDouble(top -> top.seconds() * FastMath.sqrt(2 * above_mm / top.fall_mm()))
                .min()
                .orElse(0);
        return trace.halfFalls_s(turn.index(), turn.level_mm(), 2 * above_mm) > SLOW * even_s;
    }

    private boolean isFlat(Top top) {
        double crossed_s = top.crossed_s(leastMove_mm);
        return stills.stream().anyMatch(still -> still.holds(top) && still.seconds(trace) > crossed_s);
    }

    private static double swept(Top top) {
        return Math.min(1, top.seconds() / PASS_s);
    }

    /** What is swept falls far and takes its time; a stand that swings does not. */
    private double falls(List<Top> group) {
        return group.stream()
                .mapToDouble(top -> FastMath.sqrt(top.fall_mm() / range_mm) * swept(top))
                .sum();
    }

    /** A free plunger stands at the far end of its travel, where it may have swung first; later on a hand may have turned there. */
    private boolean hungFreeBefore(List<Top> group) {
        return stills.stream()
                .anyMatch(still -> still.to() < group.get(0).index()
                        && still.seconds(trace) > FREE_s
                        && (still.from() < BEGIN ? still.level_mm() - lowest_mm < leastMove_mm : isSwungInto(still))
                        && !stops.isJoggedFrom(still, group));
    }

    private boolean isSwungInto(Still still) {
        double swung_mm = still.level_mm() + SWUNG * range_mm;
        return turns.stream().filter(turn -> turn.index() < still.from()).count() >= SWINGS
                && still.level_mm() - lowest_mm < SWUNG * range_mm
                && trace.highest_mm(0, still.from()) < swung_mm;
    }
}
