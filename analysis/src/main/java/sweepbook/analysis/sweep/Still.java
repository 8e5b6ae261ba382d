package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A stretch of a trace in which nothing moves beyond noise.
 *
 * @param from index of its first reading
 * @param to index after its last
 * @param level_mm its median
 */
record Still(int from, int to, double level_mm) {
    private static final double SHORTEST_s = 0.3;
    private static final int FEWEST = 3;
    /** An even motion through the band makes each third of it differ from the next by a third of that. */
    private static final double MOVED = 0.15;

    /** Every still stretch from the given reading on, in time order; its readings stay within a band. */
    static List<Still> in(CleanTrace trace, int start, double band_mm) {
        List<Still> found = new ArrayList<>();
        double[] line = trace.line_mm();
        int from = start;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = start; i < trace.size(); i++) {
            double v = line[i];
            if (v < low) {
                low = v;
            }
            if (v > high) {
                high = v;
            }
            if (!(high - low <= band_mm)) {
                close(trace, from, i, band_mm, found);
                from = i;
                low = v;
                high = v;
            }
        }
        close(trace, from, trace.size(), band_mm, found);
        return found;
    }

    boolean holds(Top top) {
        return from <= top.index() && top.index() < to;
    }

    double seconds(CleanTrace trace) {
        return trace.time_s()[to - 1] - trace.time_s()[from];
    }

    /** Whether it is but a part of a slow motion, which goes on from each third of it to the next. */
    boolean isMoving(CleanTrace trace) {
        int third = Math.max(1, (to - from) / 3);
        double[] line = trace.line_mm();
        double middle_mm = mean(line, from + third, to - third);
        double first_mm = middle_mm - mean(line, from, from + third);
        double last_mm = mean(line, to - third, to) - middle_mm;
        double least_mm = MOVED * trace.band_mm();
        return Math.min(first_mm, last_mm) > least_mm || Math.max(first_mm, last_mm) < -least_mm;
    }

    private static double mean(double[] line_mm, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += line_mm[i];
        }
        return sum / (to - from);
    }

    private static void close(CleanTrace trace, int from, int to, double band_mm, List<Still> found) {
        if (to - from < FEWEST || trace.time_s()[to - 1] - trace.time_s()[from] < SHORTEST_s) {
            return;
        }
        Still still = new Still(from, to, median(trace.pressed_mm(), from, to));
        Still before = found.isEmpty() ? null : found.get(found.size() - 1);
        // One excursion of the noise does not end a stretch.
        if (before != null && still.from - before.to <= 2 && Math.abs(still.level_mm - before.level_mm) < band_mm / 4) {
            found.set(found.size() - 1, new Still(before.from, to, median(trace.pressed_mm(), before.from, to)));
        } else {
            found.add(still);
        }
    }

    private static double median(double[] readings_mm, int from, int to) {
        double[] values = Arrays.copyOfRange(readings_mm, from, to);
        Arrays.sort(values);
        return (values[(values.length - 1) / 2] + values[values.length / 2]) / 2;
    }
}
