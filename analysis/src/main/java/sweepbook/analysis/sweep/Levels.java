package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;

/**
 * Cuts a stretch of a trace into levels where one level does not explain it: at each cut the likelihood of normal readings
 * about two means beats that about one by more than chance would give (binary segmentation, Scott and Knott 1974).
 */
final class Levels {
    private final int[] index;
    private final double[] sum;
    private final double variance_mm2;
    private final double base_mm;
    private final List<Still> levels = new ArrayList<>();

    private Levels(CleanTrace trace, int from, int to, double variance_mm2) {
        base_mm = trace.pressed_mm()[from];
        this.variance_mm2 = variance_mm2;
        int n = 0;
        index = new int[Math.max(0, to - from)];
        sum = new double[to - from + 1];
        for (int i = from; i < to; i++) {
            if (!trace.spike()[i]) {
                index[n] = i;
                sum[n + 1] = sum[n] + trace.pressed_mm()[i] - base_mm;
                n++;
            }
        }
        if (n > 0) {
            cut(0, n, from, to);
        }
    }

    /** The levels from (inclusive) to (exclusive), in time order, without a gap. */
    static List<Still> of(CleanTrace trace, int from, int to, double variance_mm2) {
        return new Levels(trace, from, to, variance_mm2).levels;
    }

    private void cut(int from, int to, int first, int end) {
        double total = sum[to] - sum[from];
        double n = to - from;
        double mean = total / n;
        double best = 0;
        int at = -1;
        for (int k = from + 1; k < to; k++) {
            double left = k - from;
            double above = sum[k] - sum[from] - mean * left;
            double gain = above * above * n / (left * (to - k));
            if (gain > best) {
                best = gain;
                at = k;
            }
        }
        // Twice the gain in log likelihood; its greatest over n cuts passes this by chance once in some hundreds.
        if (at > 0 && best / variance_mm2 > 11 + 2 * Math.log(n)) {
            cut(from, at, first, index[at]);
            cut(at, to, index[at], end);
        } else {
            levels.add(new Still(first, end, base_mm + mean));
        }
    }
}
