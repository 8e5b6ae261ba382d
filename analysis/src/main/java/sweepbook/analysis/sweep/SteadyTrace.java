package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A trace without the drift that parts its passes: where a stand moves by steps from pass to pass, the tops that belong together lie on a
 * line, and not about one level. What slower drifts are the passes tell once they are fitted.
 *
 * @param trace without that drift
 * @param finder of the passes in it
 * @param drift_mm_per_s that was taken out, 0 mostly
 * @param since_s when it counts from
 */
record SteadyTrace(CleanTrace trace, PassFinder finder, double drift_mm_per_s, double since_s) {
    /** Any two tops make a line. */
    private static final int FEWEST = 3;
    /** Tops of more passes than anybody sweeps tell of no drift. */
    private static final int MOST = 40;
    /** So many times longer than it takes a drift to leave the band, no rest lasts. */
    private static final double STAYS = 2;
    /** In log odds: a trace seldom drifts so fast. */
    private static final double RARE = 2;

    /** What stands from a time on, NaN where nothing does, holds no pass. */
    static SteadyTrace of(CleanTrace trace, double standsFrom_s) {
        PassFinder finder = new PassFinder(trace, standsFrom_s);
        SteadyTrace asItIs = new SteadyTrace(trace, finder, 0, 0);
        List<Turn> tops = tops(trace, finder.turns());
        if (tops.size() < FEWEST || tops.size() > MOST) {
            return asItIs;
        }
        return line(trace, tops)
                .filter(line -> line.parts_mm(trace) > trace.leastMove_mm())
                .filter(line -> !isRefuted(line, trace, finder.stills()))
                .map(line -> without(line.slope_mm_per_s, line.since_s, trace, standsFrom_s))
                .filter(steady -> steady.logOdds(2) > asItIs.logOdds(1) + RARE)
                .orElse(asItIs);
    }

    /** A drift goes on where the hand rests, and takes the reading out of the band; that of a plunger which hangs free stays. */
    private static boolean isRefuted(Line line, CleanTrace trace, List<Still> stills) {
        double free_mm = trace.lowest_mm(0, trace.size()) + trace.leastMove_mm();
        double longest_s = STAYS * trace.band_mm() / Math.abs(line.slope_mm_per_s);
        return stills.stream().anyMatch(still -> still.level_mm() > free_mm && still.seconds(trace) > longest_s);
    }

    /** The trace without a drift that is known, from a time on. */
    static SteadyTrace without(double drift_mm_per_s, double since_s, CleanTrace trace, double standsFrom_s) {
        CleanTrace steady = trace.without(drift_mm_per_s, since_s);
        return new SteadyTrace(steady, new PassFinder(steady, standsFrom_s), drift_mm_per_s, since_s);
    }

    /** Whether another trace shows the same passes. */
    boolean showsTheSameAs(SteadyTrace other) {
        return tops().equals(other.tops());
    }

    private List<Integer> tops() {
        return finder.windows().stream().map(PassFinder.Window::top).toList();
    }

    /** How far the drift moved what is read at a time. */
    double moved_mm(double time_s) {
        return drift_mm_per_s * (time_s - since_s);
    }

    /**
     * How much better the passes make sense as crests than as turns of a hand anywhere in what the trace holds.
     *
     * @param chosen by so many of them it was chosen where the others should lie: a level, or a line
     */
    private double logOdds(int chosen) {
        List<PassFinder.Window> passes = finder.windows();
        if (passes.isEmpty()) {
            return Double.NEGATIVE_INFINITY;
        }
        double low =
                passes.stream().mapToDouble(PassFinder.Window::level_mm).min().orElseThrow();
        double high =
                passes.stream().mapToDouble(PassFinder.Window::level_mm).max().orElseThrow();
        double range_mm = trace.highest_mm() - trace.lowest_mm(0, trace.size());
        double near = (high - low + trace.leastMove_mm() / 2) / range_mm;
        return finder.odds().course() + finder.odds().stop() - Math.max(0, passes.size() - chosen) * Math.log(near);
    }

    private static List<Turn> tops(CleanTrace trace, List<Turn> turns) {
        List<Turn> tops = new ArrayList<>();
        double deepest = 0;
        for (int i = 0; i < turns.size(); i++) {
            deepest = Math.max(deepest, fall_mm(trace, turns, i));
        }
        for (int i = 0; i < turns.size(); i++) {
            if (turns.get(i).top() && fall_mm(trace, turns, i) >= PassFinder.SHALLOW * deepest) {
                tops.add(turns.get(i));
            }
        }
        return tops;
    }

    /** From a top to the higher one of the turns beside it, or of the ends of the trace. */
    private static double fall_mm(CleanTrace trace, List<Turn> turns, int at) {
        Turn turn = turns.get(at);
        int from = at > 0 ? turns.get(at - 1).index() : 0;
        int to = at + 1 < turns.size() ? turns.get(at + 1).index() : trace.size() - 1;
        return turn.level_mm() - Math.max(trace.line_mm()[from], trace.line_mm()[to]);
    }

    /** The line with most tops on it. */
    private static Optional<Line> line(CleanTrace trace, List<Turn> tops) {
        List<Line> lines = new ArrayList<>();
        for (int i = 0; i < tops.size(); i++) {
            for (int k = i + 1; k < tops.size(); k++) {
                lines.add(Line.through(trace, tops.get(i), tops.get(k)).on(trace, tops));
            }
        }
        double fastest = Agreement.FASTEST_per_s * trace.resolution_mm();
        return lines.stream()
                .filter(line -> line.tops.size() >= FEWEST && Math.abs(line.slope_mm_per_s) <= fastest)
                .max(Comparator.comparingInt(line -> line.tops.size()));
    }

    private record Line(double slope_mm_per_s, double since_s, double level_mm, List<Turn> tops) {
        static Line through(CleanTrace trace, Turn a, Turn b) {
            double from_s = trace.time_s()[a.index()];
            double seconds = Math.max(1e-9, trace.time_s()[b.index()] - from_s);
            return new Line((b.level_mm() - a.level_mm()) / seconds, from_s, a.level_mm(), List.of(a, b));
        }

        /** The line through all tops that lie on this one but for what moves a top: noise and rounding. */
        Line on(CleanTrace trace, List<Turn> tops) {
            List<Turn> near = tops.stream()
                    .filter(top -> Math.abs(top.level_mm() - at_mm(trace, top)) <= trace.leastMove_mm())
                    .toList();
            double middle_s = near.stream()
                    .mapToDouble(top -> trace.time_s()[top.index()])
                    .average()
                    .orElse(since_s);
            double tt = 0;
            double ty = 0;
            double sum = 0;
            for (Turn top : near) {
                double t = trace.time_s()[top.index()] - middle_s;
                tt += t * t;
                ty += t * top.level_mm();
                sum += top.level_mm();
            }
            return new Line(tt > 0 ? ty / tt : 0, middle_s, sum / near.size(), near);
        }

        /** How far it moves from the first of its tops to the last. */
        double parts_mm(CleanTrace trace) {
            double first_s = trace.time_s()[tops.get(0).index()];
            return Math.abs(slope_mm_per_s)
                    * (trace.time_s()[tops.get(tops.size() - 1).index()] - first_s);
        }

        private double at_mm(CleanTrace trace, Turn top) {
            return level_mm + slope_mm_per_s * (trace.time_s()[top.index()] - since_s);
        }
    }
}
