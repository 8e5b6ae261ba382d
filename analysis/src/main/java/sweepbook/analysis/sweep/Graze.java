package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;

/**
 * A crest that was reached and hardly crossed: a hand comes up one flank, stands, and jogs from there. Nothing falls after the top
 * that noise could not feign.
 *
 * @param top where the reading is highest before the jog
 * @param from the first reading that belongs to the crossing
 * @param to the reading after its last
 */
record Graze(Top top, int from, int to) {
    /** In moves that are seen at all: a flank is as deep. */
    private static final double DEEP = 4;

    /** A hand that goes on over the crest and comes back makes no deeper dip. */
    private static final double DIP = 2;

    /** Of the flank what lies so many such moves below the top is used: a part of it tells more of the hand than of the crest. */
    private static final double USED = 3;

    /** The first in a trace; empty where a hand never stands at the upper end of a flank before the last rest. */
    static Optional<Graze> in(CleanTrace trace, List<Still> stills) {
        double least_mm = trace.leastMove_mm();
        for (int k = 0; k < stills.size() - 1; k++) {
            Still still = stills.get(k);
            if (still.seconds(trace) <= PassFinder.STOP_s) {
                continue;
            }
            int foot = foot(trace, still);
            boolean waits = stills.subList(0, k).stream()
                    .anyMatch(wait -> wait.from() > foot
                            && wait.level_mm() < still.level_mm() - least_mm
                            && (wait.seconds(trace) > PassFinder.STOP_s || !wait.isMoving(trace)));
            if (!waits
                    && still.level_mm() - trace.line_mm()[foot] > DEEP * least_mm
                    && isSmooth(trace, foot, still.from())) {
                return Optional.of(of(trace, foot, still));
            }
        }
        return Optional.empty();
    }

    private static Graze of(CleanTrace trace, int foot, Still still) {
        double[] line = trace.line_mm();
        double least_mm = trace.leastMove_mm();
        int top = foot;
        for (int i = foot; i < still.to(); i++) {
            top = line[i] > line[top] ? i : top;
        }
        int from = above(line, top, foot, USED * least_mm);
        int near = above(line, top, foot, least_mm);
        int to = Math.min(still.to(), top + Math.max(top - near, 1) + 1);
        double rise_mm = line[top] - line[foot];
        double seconds = trace.halfFalls_s(top, line[top], 2 * least_mm);
        return new Graze(new Top(top, line[top], rise_mm, rise_mm, seconds), from, to);
    }

    /** The first reading before a top that lies no farther below it than this. */
    private static int above(double[] line, int top, int foot, double within_mm) {
        int i = top;
        while (i > foot && line[i - 1] > line[top] - within_mm) {
            i--;
        }
        return i;
    }

    /** Where the rise begins that ends in a stand. */
    private static int foot(CleanTrace trace, Still still) {
        double[] line = trace.line_mm();
        int foot = still.from();
        for (int i = still.from(); i > 0 && line[i - 1] < line[foot] + DIP * trace.leastMove_mm(); i--) {
            foot = line[i - 1] <= line[foot] ? i - 1 : foot;
        }
        return foot;
    }

    /** Whether a hand went up there, and no click. */
    private static boolean isSmooth(CleanTrace trace, int from, int to) {
        double[] line = trace.line_mm();
        double most = 0;
        for (int i = from + 1; i <= to; i++) {
            most = Math.max(most, line[i] - line[i - 1]);
        }
        return most < (line[to] - line[from]) / 2;
    }
}
