package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Where the passes of a sweep are: tops of the line that reach about the same level, the last such group of the trace,
 * and about each the stretch between the turns of the hand.
 */
final class PassFinder {
    /** Of the fall from a crest to the turn of the hand, so much is taken to be one motion. */
    private static final double USED_FALL = 0.85;
    /** A side that falls so many times deeper than the other holds something else, the press-in say. */
    private static final double LOPSIDED = 3;

    /** A stop below this part of the fall ends the pass. */
    private static final double DEEP = 0.4;

    /** A top that falls by less than this part of the deepest about its level is a wobble. */
    static final double SHALLOW = 0.2;
    /** The same beside all that the trace holds: a jog beyond the zero and back may fall far deeper than the passes. */
    private static final double WOBBLE = 0.05;

    /** Where no top falls by so many moves that are seen at all, none was swept over. */
    private static final double CROSSED = 1.25;
    /** What a stop says there, in log odds. */
    private static final double STOPPED = 2;

    /** In log odds. */
    private static final double DRAW = 0.001;

    /** Whoever stands for so long has ended the sweep if the reading never rises again. */
    static final double STOP_s = 0.8;

    /** No hand sweeps across in less; where all tops are quicker, no hand swept. */
    private static final double QUICKEST_s = 0.15;

    /**
     * A pass to fit: readings from (inclusive) to (exclusive) about the rough top.
     *
     * @param stops of the hand on the flank
     * @param pauses as near to the crest as noise tells: the hand may have stood there, or went slowly over the crest
     */
    record Window(int from, int top, int to, double level_mm, double fall_mm, List<Still> stops, List<Still> pauses) {}

    private record Group(List<Top> passes, CrestOdds.Odds odds) {}

    private final CleanTrace trace;
    private final double standsFrom_s;
    private final List<Turn> turns;
    /** So many of these, from the first on, are the stand's. */
    private final int swings;

    private final List<Still> stills;
    private final double leastMove_mm;
    private final CrestOdds crests;
    private final LastStop lastStop;
    private final List<Window> windows = new ArrayList<>();
    private final double deepest_mm;
    private final boolean isGrazed;
    private CrestOdds.Odds odds = CrestOdds.Odds.NONE;

    /** What stands from a time on, NaN where nothing does, holds no pass. */
    PassFinder(CleanTrace trace, double standsFrom_s) {
        this.trace = trace;
        this.standsFrom_s = standsFrom_s;
        leastMove_mm = trace.leastMove_mm();
        turns = Turn.in(trace.line_mm(), 0, trace.size(), leastMove_mm);
        swings = Swings.count(turns, trace.time_s(), leastMove_mm);
        stills = Still.in(trace, 0, trace.band_mm());
        crests = new CrestOdds(trace, turns, stills);
        lastStop = new LastStop(trace, turns, stills);
        isGrazed = false;
        List<Top> tops = tops();
        deepest_mm = Top.deepest_mm(tops);
        List<Top> group = likeliestGroup(tops);
        for (Top top : group) {
            windows.add(window(top, group));
        }
    }

    /** Nothing but a crest that was hardly crossed. */
    private PassFinder(PassFinder other, Graze graze) {
        trace = other.trace;
        standsFrom_s = other.standsFrom_s;
        leastMove_mm = other.leastMove_mm;
        turns = other.turns;
        swings = other.swings;
        stills = other.stills;
        crests = other.crests;
        lastStop = other.lastStop;
        deepest_mm = other.deepest_mm;
        isGrazed = true;
        Top top = graze.top();
        odds = new CrestOdds.Odds(crests.of(List.of(top)).course(), STOPPED, 0);
        windows.add(
                new Window(graze.from(), top.index(), graze.to(), top.level_mm(), top.fall_mm(), List.of(), List.of()));
    }

    /** The same where no pass was found, and a hand may have stood where it hardly crossed a crest. */
    PassFinder orGraze() {
        return deepest_mm >= CROSSED * leastMove_mm
                ? this
                : Graze.in(trace, stills)
                        .filter(graze -> !(trace.time_s()[graze.top().index()] >= standsFrom_s))
                        .map(graze -> new PassFinder(this, graze))
                        .orElse(this);
    }

    /** The tops and bottoms of the whole trace, without those of a stand that swings when it begins. */
    List<Turn> turns() {
        return turns.subList(swings, turns.size());
    }

    List<Window> windows() {
        return windows;
    }

    /** Whether all there is, is a crest that was reached and hardly crossed. */
    boolean isGrazed() {
        return isGrazed;
    }

    /** How far the deepest pass falls. */
    double fall_mm() {
        return windows.stream().mapToDouble(Window::fall_mm).max().orElse(0);
    }

    List<Still> stills() {
        return stills;
    }

    /** How well the passes make sense with this sense of pressing. */
    CrestOdds.Odds odds() {
        return odds;
    }

    private List<Top> tops() {
        List<Top> tops = new ArrayList<>();
        for (int i = swings; i < turns.size(); i++) {
            if (turns.get(i).top() && !(trace.time_s()[turns.get(i).index()] >= standsFrom_s)) {
                Turn turn = turns.get(i);
                double left = fall(i, -1);
                double right = fall(i, +1);
                if (Math.min(left, right) >= leastMove_mm) {
                    double seconds = trace.halfFalls_s(turn.index(), turn.level_mm(), Math.min(left, right));
                    tops.add(new Top(turn.index(), turn.level_mm(), left, right, seconds));
                }
            }
        }
        if (tops.stream().anyMatch(top -> top.seconds() > QUICKEST_s)) {
            tops.removeIf(top -> top.seconds() <= QUICKEST_s);
        }
        return tops;
    }

    /** How far the line falls beside a top before it rises higher than the top. */
    private double fall(int turn, int direction) {
        double level = turns.get(turn).level_mm();
        double lowest = level;
        int i = turn + direction;
        for (; i >= 0 && i < turns.size(); i += direction) {
            double other = turns.get(i).level_mm();
            if (other > level + leastMove_mm) {
                return level - lowest;
            }
            lowest = Math.min(lowest, other);
        }
        int last = turns.get(i - direction).index();
        double[] line = trace.line_mm();
        for (int k = last; k >= 0 && k < line.length; k += direction) {
            if (line[k] > level + leastMove_mm) {
                break;
            }
            lowest = Math.min(lowest, line[k]);
        }
        return level - lowest;
    }

    private List<Top> likeliestGroup(List<Top> tops) {
        double deepest = Top.deepest_mm(tops);
        tops.removeIf(top -> top.fall_mm() < WOBBLE * deepest);
        List<Top> group = new ArrayList<>();
        Map<List<Top>, Group> weighed = new HashMap<>();
        for (Top reference : tops) {
            Group these = weighed.computeIfAbsent(chain(tops, reference), this::weigh);
            // Later and higher groups win a draw: the touch before comes first, a turn on the flank lies lower.
            if (these.odds.sum() >= odds.sum() - DRAW) {
                odds = these.odds;
                group = these.passes;
            }
        }
        return group;
    }

    /** The passes among the tops about one level. */
    private Group weigh(List<Top> level) {
        List<Top> members = new ArrayList<>(lastStop.ends(level) ? level.subList(0, level.size() - 1) : level);
        double deepest = Top.deepest_mm(members);
        members.removeIf(top -> top.fall_mm() < SHALLOW * deepest);
        List<Top> passes = Humps.passes(trace, members);
        return new Group(passes, crests.of(passes));
    }

    /** Whether the reading never rises again. */
    private boolean isLast(Top top) {
        return turns.get(turns.size() - 1).index() == top.index();
    }

    /** The tops about the level of one, which may drift from each to the next. */
    private List<Top> chain(List<Top> tops, Top reference) {
        double tolerance_mm = tolerance_mm(reference.fall_mm());
        List<Top> members = new ArrayList<>();
        members.add(reference);
        int at = tops.indexOf(reference);
        for (int direction = -1; direction <= 1; direction += 2) {
            Top last = reference;
            for (int i = at + direction; i >= 0 && i < tops.size(); i += direction) {
                Top top = tops.get(i);
                double apart_s = Math.abs(trace.time_s()[top.index()] - trace.time_s()[last.index()]);
                double near_mm = tolerance_mm + LastStop.drift_mm(trace, apart_s);
                if (Math.abs(top.level_mm() - last.level_mm()) <= near_mm) {
                    members.add(direction < 0 ? 0 : members.size(), top);
                    last = top;
                }
            }
        }
        return members;
    }

    private double tolerance_mm(double deepest) {
        return Math.max(Math.max(3 * trace.resolution_mm(), 4 * trace.total_mm()), 0.04 * deepest);
    }

    private Window window(Top top, List<Top> group) {
        double[] line = trace.line_mm();
        int left = reach(top, -1, Math.min(top.leftFall_mm(), LOPSIDED * top.rightFall_mm()));
        int right = reach(top, +1, Math.min(top.rightFall_mm(), LOPSIDED * top.leftFall_mm()));
        List<Still> stops = new ArrayList<>();
        List<Still> pauses = new ArrayList<>();
        for (Still still : stills) {
            if (still.to() <= left || still.from() > right) {
                continue;
            }
            Standstill stand =
                    new Standstill(trace, still, top, still.from() + still.to() < 2 * top.index() ? left : right);
            if (top.level_mm() - still.level_mm() <= leastMove_mm) {
                if (stand.mayBePause()) {
                    pauses.add(still);
                }
            } else if (stand.isStop()) {
                // Deep on the flank a stop parts the pass from what was before or after it, the press-in say.
                boolean deep = top.level_mm() - still.level_mm() > DEEP * top.fall_mm();
                if (deep && still.to() < top.index()) {
                    left = Math.max(left, still.to());
                    stops.clear();
                } else if (still.from() > top.index() && (deep || isLast(top) && still.seconds(trace) > STOP_s)) {
                    right = Math.min(right, still.from());
                } else {
                    stops.add(still);
                }
            }
        }
        // Of a display that changes slowly the next reading may be seen where the hand has turned already.
        left = Math.max(0, Math.min(left, top.index() - 1));
        right = Math.min(line.length - 1, Math.max(right, top.index() + 1));
        return new Window(
                left, top.index(), Math.min(right + 1, line.length), top.level_mm(), top.fall_mm(), stops, pauses);
    }

    /** The last reading on one side that belongs to the same motion as the crossing. */
    private int reach(Top top, int direction, double fall) {
        double[] line = trace.line_mm();
        int end = direction < 0 ? 0 : line.length - 1;
        double lowest = top.level_mm() - fall;
        for (Turn turn : turns) {
            boolean beyond = direction < 0 ? turn.index() < top.index() : turn.index() > top.index();
            if (beyond && !turn.top() && Math.abs(turn.index() - top.index()) < Math.abs(end - top.index())) {
                end = turn.index();
                lowest = Math.max(top.level_mm() - fall, turn.level_mm());
            }
        }
        double cut = top.level_mm() - USED_FALL * (top.level_mm() - lowest);
        int i = top.index();
        while (i != end && line[i + direction] >= cut) {
            i += direction;
        }
        return i;
    }
}
