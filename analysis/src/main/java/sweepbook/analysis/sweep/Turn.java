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
                    turns.add(new Turn(middleOfTop(line_mm, high, i, +1), line_mm[high], true));
                }
                direction = -1;
                low = i;
                high = i;
            } else if (direction <= 0 && v - line_mm[low] >= leastMove_mm && low < i) {
                if (direction < 0 || line_mm[from] - line_mm[low] >= leastMove_mm) {
                    turns.add(new Turn(middleOfTop(line_mm, low, i, -1), line_mm[low], false));
                }
                direction = 1;
                high = i;
                low = i;
            }
        }
        return turns;
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
