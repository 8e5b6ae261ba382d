package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;

/**
 * A reading at which the motion turns: everything between two turns goes one way but for noise.
 *
 * @param index where in the trace
 * @param level_mm the line there
 * @param top whether it is a top rather than a bottom
 */
record Turn(int index, double level_mm, boolean top) {
    /** Tops and bottoms in turn, each at least the least move away from the next; the ends of the trace are none. */
    static List<Turn> in(double[] line_mm, int from, int to, double leastMove_mm) {
        List<Turn> turns = new ArrayList<>();
        if (to - from < 3) {
            return turns;
        }
        int low = from;
        int high = from;
        int direction = 0;
        for (int i = from + 1; i < to; i++) {
            double v = line_mm[i];
            if (v > line_mm[high]) {
                high = i;
            }
            if (v < line_mm[low]) {
                low = i;
            }
            if (direction >= 0 && line_mm[high] - v >= leastMove_mm && high < i) {
                if (direction > 0 || line_mm[high] - line_mm[from] >= leastMove_mm) {
                    turns.add(new Turn(middleOfTop(line_mm, high, i, +1), level_mm(line_mm, high, leastMove_mm), true));
                }
                direction = -1;
                low = i;
                high = i;
            } else if (direction <= 0 && v - line_mm[low] >= leastMove_mm && low < i) {
                if (direction < 0 || line_mm[from] - line_mm[low] >= leastMove_mm) {
                    turns.add(new Turn(middleOfTop(line_mm, low, i, -1), level_mm(line_mm, low, leastMove_mm), false));
                }
                direction = 1;
                high = i;
                low = i;
            }
        }
        return turns;
    }

    /**
     * Between readings so far apart that the motion bends from each to the next by more than the least move, the top of the parabola
     * through three of them; where the fourth says that it goes on so, and does not stand.
     */
    private static double level_mm(double[] line_mm, int at, double leastMove_mm) {
        if (at < 2 || at + 2 >= line_mm.length) {
            return line_mm[at];
        }
        double before = line_mm[at] - line_mm[at - 1];
        double after = line_mm[at] - line_mm[at + 1];
        double bend = (before + after) / 2;
        int flatter = Math.abs(before) < Math.abs(after) ? -1 : 1;
        double goesOn = (line_mm[at + flatter] - line_mm[at + 2 * flatter]) * Math.signum(bend);
        return 2 * Math.abs(bend) > leastMove_mm && goesOn > Math.abs(bend)
                ? line_mm[at] + (before - after) * (before - after) / (16 * bend)
                : line_mm[at];
    }

    /** A top that stands on one digit for long is put in the middle of that stretch. */
    private static int middleOfTop(double[] line_mm, int at, int end, int sign) {
        int last = at;
        for (int i = at; i < end && sign * (line_mm[at] - line_mm[i]) <= 0; i++) {
            last = i;
        }
        return (at + last) / 2;
    }
}
