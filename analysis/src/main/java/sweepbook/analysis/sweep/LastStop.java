package sweepbook.analysis.sweep;

import java.util.List;

/** Tells whether the last top of a sweep is a pass, or where the person stood on the crest before the jog. */
final class LastStop {
    /** In resolutions: a stand hardly drifts faster. */
    private static final double DRIFT_per_s = 0.7;

    /** A jog that turned back ends so far below the stop, as a part of its fall; a hand comes back to the crest, or near it under a drift. */
    private static final double AWAY = 0.4;

    /** So many passes tell how long one takes, and a stop takes so many times longer. */
    private static final int FEWEST = 2;

    private static final double OUTLASTS = 2.5;

    private final CleanTrace trace;
    private final List<Turn> turns;
    private final List<Still> stills;
    private final double leastMove_mm;

    LastStop(CleanTrace trace, List<Turn> turns, List<Still> stills) {
        this.trace = trace;
        this.turns = turns;
        this.stills = stills;
        leastMove_mm = trace.leastMove_mm();
    }

    /** Whether some tops end with the stop. */
    boolean ends(List<Top> tops) {
        List<Top> others = tops.subList(0, Math.max(0, tops.size() - 1));
        return !others.isEmpty() && (outlasts(tops) || isAt(tops.get(others.size()), others));
    }

    /** Whether the last of some tops took so much longer than all the others that the person stood there, whatever drifted. */
    private static boolean outlasts(List<Top> tops) {
        List<Top> others = tops.subList(0, tops.size() - 1);
        double longest_s = others.stream().mapToDouble(Top::seconds).max().orElse(Double.POSITIVE_INFINITY);
        return others.size() >= FEWEST && tops.get(others.size()).seconds() > OUTLASTS * longest_s;
    }

    /** Whether a top is where the person stood still before the jog took the reading down: nothing comes near it afterwards. */
    private boolean isAt(Top top, List<Top> others) {
        return isNearedNoMore(top)
                        && stills.stream()
                                .anyMatch(still -> still.seconds(trace) > PassFinder.STOP_s && isOn(still, top))
                || isDriftingStop(top, others);
    }

    /** Whether a top is a part of a still stretch, or noise beside it. */
    private boolean isOn(Still still, Top top) {
        int from = Math.min(still.to(), top.index());
        int to = Math.max(still.from(), top.index());
        return still.holds(top)
                || top.level_mm() - still.level_mm() <= leastMove_mm
                        && trace.lowest_mm(from, to) >= still.level_mm() - leastMove_mm;
    }

    /** Whether the line stays far below a top from the turn after it on: it comes back by some clicks, at most. */
    private boolean isNearedNoMore(Top top) {
        return turns.stream().filter(turn -> turn.index() > top.index() && !turn.top()).findFirst().stream()
                .allMatch(turn -> isFarBelow(top, turn));
    }

    private boolean isFarBelow(Top top, Turn turn) {
        double below_mm = Math.max(leastMove_mm, AWAY * (top.level_mm() - turn.level_mm()));
        return trace.highest_mm(turn.index(), trace.size()) < top.level_mm() - below_mm;
    }

    /**
     * The same under a drift: the hand stood for longer than it takes to cross evenly, or by far than at any other crest, and only the
     * drift rises after it.
     */
    private boolean isDriftingStop(Top top, List<Top> others) {
        double[] t = trace.time_s();
        double stood_s = 0;
        for (Still still : stills) {
            double since_s = Math.max(0, t[top.index()] - t[still.to() - 1]);
            double near_mm = leastMove_mm + drift_mm(trace, since_s);
            if (since_s < PassFinder.STOP_s
                    && still.from() <= top.index()
                    && top.level_mm() - still.level_mm() <= near_mm) {
                stood_s += still.seconds(trace);
            }
        }
        double passing_s = Math.min(top.crossed_s(leastMove_mm), outlasting_s(others));
        return stood_s > Math.max(PassFinder.STOP_s, passing_s) && !isSweptOnAfter(top);
    }

    private double outlasting_s(List<Top> others) {
        return others.size() < FEWEST
                ? Double.POSITIVE_INFINITY
                : OUTLASTS
                        * stills.stream()
                                .filter(still -> others.stream().anyMatch(still::holds))
                                .mapToDouble(still -> still.seconds(trace))
                                .max()
                                .orElse(Double.POSITIVE_INFINITY);
    }

    private boolean isSweptOnAfter(Top top) {
        double[] line = trace.line_mm();
        double[] t = trace.time_s();
        int lowest = top.index();
        for (int i = top.index(); i < line.length; i++) {
            if (line[i] < line[lowest]) {
                lowest = i;
            } else if (line[i] - line[lowest] > leastMove_mm + drift_mm(trace, t[i] - t[lowest])) {
                return true;
            }
        }
        return false;
    }

    /** By how much a stand may drift. */
    static double drift_mm(CleanTrace trace, double seconds) {
        return DRIFT_per_s * trace.resolution_mm() * seconds;
    }
}
