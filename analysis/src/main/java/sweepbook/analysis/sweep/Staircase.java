package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * Cuts the end of a trace into levels, and a last stretch that may still settle. Of all cuts it takes the one of least
 * squares, each cut being paid for (optimal partitioning: Jackson et al., IEEE Signal Processing Letters 12 (2005) 105);
 * the last stretch is a level, a line or an exponential, whichever explains it with the fewest cuts before it.
 */
final class Staircase {
    /** More readings are averaged in groups: the cost grows with the square of their number. */
    private static final int GROUPS = 400;
    /** Chance gives a gain of so much, in squares over the variance, once in some hundreds of traces. */
    private static final double CUT = 11;
    /** What a slope costs, and a settling whose time has to be found. */
    private static final double LINE = 8;

    private static final double SETTLING = 30;
    private static final double FAR = 3;
    private static final double[] TIMES_s = {0.4, 0.8, 1.6, 3.2, 6.4, 12.8};

    private final CleanTrace trace;
    private final int end;
    private final double[] time_s;
    private final int[] first;
    private final double[] count;
    // Of readings in standard deviations.
    private final double[] sum;
    private final double[] squares;
    private final double[] sumT;
    private final double[] sumTT;
    private final double[] sumTY;
    private final double reading_mm;
    private final double cut;
    private final double base_mm;
    private final int n;

    private Staircase(CleanTrace trace, int from, int to, double variance_mm2) {
        this.trace = trace;
        reading_mm = FastMath.sqrt(variance_mm2);
        end = to;
        base_mm = trace.line_mm()[to - 1];
        int kept = 0;
        for (int i = from; i < to; i++) {
            kept += trace.spike()[i] ? 0 : 1;
        }
        int group = (kept + GROUPS - 1) / GROUPS;
        n = group == 0 ? 0 : (kept + group - 1) / group;
        time_s = new double[n];
        first = new int[n + 1];
        count = new double[n + 1];
        sum = new double[n + 1];
        squares = new double[n + 1];
        sumT = new double[n + 1];
        sumTT = new double[n + 1];
        sumTY = new double[n + 1];
        fill(from, to, Math.max(group, 1));
        cut = CUT + 2 * FastMath.log(Math.max(n, 2));
    }

    private void fill(int from, int to, int group) {
        int k = -1;
        int inGroup = group;
        double y = 0;
        double t = 0;
        for (int i = from; i < to; i++) {
            if (trace.spike()[i]) {
                continue;
            }
            if (inGroup == group) {
                close(k, inGroup, t, y);
                k++;
                first[k] = k == 0 ? from : i;
                inGroup = 0;
                y = 0;
                t = 0;
            }
            // A spike too small to be taken for one still must not make a level of its own.
            double line = trace.line_mm()[i];
            double off = (trace.pressed_mm()[i] - line) / reading_mm;
            y += (line - base_mm) / reading_mm + Math.max(-FAR, Math.min(FAR, off));
            t += trace.time_s()[i];
            inGroup++;
        }
        close(k, inGroup, t, y);
        first[n] = to;
    }

    private void close(int k, int readings, double t, double y) {
        if (k >= 0) {
            time_s[k] = t / readings;
            double since_s = time_s[k] - time_s[0];
            sumT[k + 1] = sumT[k] + readings * since_s;
            sumTT[k + 1] = sumTT[k] + readings * since_s * since_s;
            sumTY[k + 1] = sumTY[k] + y * since_s;
            count[k + 1] = count[k] + readings;
            sum[k + 1] = sum[k] + y;
            squares[k + 1] = squares[k] + y * y / readings;
        }
    }

    /**
     * The levels from (inclusive) to (exclusive), in time order, without a gap.
     *
     * @param one_mm levels closer than this are one
     */
    static List<Still> levels(CleanTrace trace, int from, int to, double variance_mm2, double one_mm) {
        if (to <= from) {
            return List.of();
        }
        Staircase stairs = new Staircase(trace, from, to, variance_mm2);
        return stairs.n == 0 ? List.of() : stairs.merged(stairs.cutsBefore(stairs.n, stairs.partition(false)), one_mm);
    }

    /** The last stretch, settling or not: where what came before it, a jog mostly, is over. */
    static Optional<Still> last(CleanTrace trace, int from, int to, double variance_mm2, double one_mm) {
        if (to <= from) {
            return Optional.empty();
        }
        Staircase stairs = new Staircase(trace, from, to, variance_mm2);
        if (stairs.n == 0) {
            return Optional.empty();
        }
        Partition partition = stairs.partition(true);
        int last = stairs.lastBegin(partition);
        List<Integer> cuts = stairs.cutsBefore(last, partition);
        if (last > 0) {
            cuts.add(last);
        }
        List<Still> merged = stairs.merged(cuts, one_mm);
        return Optional.of(merged.get(merged.size() - 1));
    }

    /** The least cost of all that ends before each group, and where its last step begins. */
    private record Partition(double[] least, int[] before) {}

    /** Many small steps cannot be told apart where noise hides them: a slope may stand for them. */
    private Partition partition(boolean slopes) {
        double[] least = new double[n + 1];
        int[] before = new int[n + 1];
        least[0] = -cut;
        // Where what began at a group is beaten for good it is not tried again (pruning: Killick et al. 2012).
        int[] begins = new int[n];
        double[] costs = new double[n];
        int open = 0;
        double kept = slopes ? LINE : 0;
        for (int j = 1; j <= n; j++) {
            begins[open++] = j - 1;
            least[j] = Double.POSITIVE_INFINITY;
            for (int k = 0; k < open; k++) {
                int i = begins[k];
                double about = aboutMean(i, j);
                if (slopes && about > LINE) {
                    about = Math.min(about, LINE + about - slopeGain(i, j));
                }
                double cost = least[i] + cut + about;
                costs[k] = cost;
                if (cost < least[j]) {
                    least[j] = cost;
                    before[j] = i;
                }
            }
            int left = 0;
            for (int k = 0; k < open; k++) {
                if (costs[k] <= least[j] + cut + kept) {
                    begins[left++] = begins[k];
                }
            }
            open = left;
        }
        return new Partition(least, before);
    }

    private int lastBegin(Partition partition) {
        double best = partition.least[n];
        int last = partition.before[n];
        for (double tau_s : TIMES_s) {
            double[] settling = aboutSettling(tau_s);
            for (int i = 0; i < n; i++) {
                double cost = partition.least[i] + cut + SETTLING + settling[i];
                if (cost < best) {
                    best = cost;
                    last = i;
                }
            }
        }
        return last;
    }

    /** Where each step before a group begins. */
    private List<Integer> cutsBefore(int end, Partition partition) {
        List<Integer> cuts = new ArrayList<>();
        for (int j = end; j > 0; j = partition.before[j]) {
            cuts.add(0, partition.before[j]);
        }
        if (cuts.isEmpty()) {
            cuts.add(0);
        }
        return cuts;
    }

    /** Squares about the mean of groups i (inclusive) to j (exclusive). */
    private double aboutMean(int i, int j) {
        double s = sum[j] - sum[i];
        double each = 1 / (count[j] - count[i]);
        double about = squares[j] - squares[i] - s * s * each;
        return about > 0 ? about : 0;
    }

    /** What a slope takes off those squares. */
    private double slopeGain(int i, int j) {
        double t = sumT[j] - sumT[i];
        double each = 1 / (count[j] - count[i]);
        double mean = t * each;
        double ctt = sumTT[j] - sumTT[i] - mean * t;
        double cty = sumTY[j] - sumTY[i] - mean * (sum[j] - sum[i]);
        return j - i > 2 && ctt > 1e-9 ? cty * cty / ctt : 0;
    }

    /** From each group to the end: squares about a line in exp(-t / tau). */
    private double[] aboutSettling(double tau_s) {
        double[] about = new double[n];
        double w = 0;
        double x = 0;
        double xx = 0;
        double y = 0;
        double xy = 0;
        for (int i = n - 1; i >= 0; i--) {
            double weight = count[i + 1] - count[i];
            double left_s = time_s[n - 1] - time_s[i];
            double u = FastMath.exp(Math.min(left_s / tau_s, 100));
            double value = sum[i + 1] - sum[i];
            w += weight;
            x += weight * u;
            xx += weight * u * u;
            y += value;
            xy += u * value;
            double cxx = xx - x * x / w;
            double cxy = xy - x * y / w;
            double gain = cxx > 1e-9 * xx ? cxy * cxy / cxx : 0;
            about[i] = Math.max(0, aboutMean(i, n) - gain);
        }
        return about;
    }

    /** Neighbours that noise, creep or drift has parted are put together again. */
    private List<Still> merged(List<Integer> cuts, double one_mm) {
        List<Integer> kept = new ArrayList<>(cuts);
        for (int k = kept.size() - 1; k > 0; k--) {
            int at = kept.get(k);
            int next = k + 1 < kept.size() ? kept.get(k + 1) : n;
            boolean last = k == kept.size() - 1;
            // A stretch that settles begins elsewhere than its mean.
            double after_mm =
                    last ? level_mm(at, Math.min(next, at + Math.max(2, (next - at) / 8))) : level_mm(at, next);
            if (Math.abs(after_mm - level_mm(kept.get(k - 1), at)) < one_mm) {
                kept.remove(k);
            }
        }
        List<Still> levels = new ArrayList<>();
        for (int k = 0; k < kept.size(); k++) {
            int at = kept.get(k);
            int next = k + 1 < kept.size() ? kept.get(k + 1) : n;
            levels.add(new Still(first[at], next == n ? end : first[next], level_mm(at, next)));
        }
        return levels;
    }

    private double level_mm(int i, int j) {
        return base_mm + reading_mm * (sum[j] - sum[i]) / (count[j] - count[i]);
    }
}
