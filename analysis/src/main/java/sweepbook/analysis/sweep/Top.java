package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * A top of the line of a trace that may be a crest.
 *
 * @param index of the reading
 * @param level_mm of the line there
 * @param leftFall_mm how far the line falls before it
 * @param rightFall_mm how far it falls after it
 * @param seconds between its half falls
 */
record Top(int index, double level_mm, double leftFall_mm, double rightFall_mm, double seconds) {
    /** So many times longer than an even hand crosses a top the reading stands there. */
    private static final double STANDS = 1.5;

    double fall_mm() {
        return Math.min(leftFall_mm, rightFall_mm);
    }

    /** How far the deepest of some tops falls; 0 where there is none. */
    static double deepest_mm(List<Top> tops) {
        return tops.stream().mapToDouble(Top::fall_mm).max().orElse(0);
    }

    /** Index of the reading at the last of some tops, which are in time order. */
    static int last(List<Top> tops) {
        return tops.get(tops.size() - 1).index();
    }

    /** How far the deeper side of any of some tops falls; 0 where there is none. */
    static double farthest_mm(List<Top> tops) {
        return tops.stream()
                .mapToDouble(top -> Math.max(top.leftFall_mm(), top.rightFall_mm()))
                .max()
                .orElse(0);
    }

    /** Mean level of some tops. */
    static double level_mm(List<Top> tops) {
        return tops.stream().mapToDouble(Top::level_mm).average().orElse(0);
    }

    /** Nobody who crosses it is within so much of it for longer: there the reading stands. */
    double crossed_s(double below_mm) {
        return STANDS * seconds * FastMath.sqrt(2 * below_mm / fall_mm());
    }

    /** The same top falling no deeper than to the valleys beside it: between passes the hand turns there. */
    Top noDeeperThan(double left_mm, double right_mm) {
        return new Top(
                index,
                level_mm,
                Math.min(leftFall_mm, level_mm - left_mm),
                Math.min(rightFall_mm, level_mm - right_mm),
                seconds);
    }

    /** By how much a median of five lies below the crest itself, which an even hand passes as fast as the half falls. */
    double clipped_mm(double[] time_s) {
        int from = Math.max(0, index - 1);
        int to = Math.min(time_s.length - 1, index + 1);
        double reading_s = (time_s[to] - time_s[from]) / Math.max(1, to - from);
        double part = Math.min(0.5, reading_s / Math.max(seconds, reading_s));
        return 2 * fall_mm() * part * part;
    }
}
