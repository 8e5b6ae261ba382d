package sweepbook.analysis.sweep;

import java.util.Arrays;

/**
 * The device's own even pace behind readings that its link delays, each a little or many until a timer sends them all at
 * once. Only the last reading of a group tells of the pace: it waited least.
 */
final class Pace {
    private static final int FEWEST_TIMES = 16;
    /** In mean cycles: readings so close to one another came together. */
    private static final double TOGETHER = 0.2;
    /** A time so far off the pace, in cycles, is uneven. */
    private static final double UNEVEN = 0.1;
    /** With fewer uneven times a loss here and there explains them. */
    private static final double FEW_UNEVEN = 0.03;
    /** With so many uneven times the link is at fault, timer or not. */
    private static final double MANY_UNEVEN = 0.2;
    /** Departures below this part of a cycle count alike: the times of the link's own timer fall on a lattice too. */
    private static final double FLOOR = 0.3;
    /** So many groups are enough to find the cycle, or a timer, in. */
    private static final int SEARCHED = 600;
    /** At least this share of the readings arrives. */
    private static final double MOST_LOST = 0.65;
    /** In cycles: whatever the times, counting as many losses as it takes leaves them 0.29 off an even pace. */
    private static final double KEEPS_PACE = 0.2;
    /** How well the times of a link with a timer lie on its ticks: 1 if exactly, 0 if by chance. */
    private static final double ON_TICKS = 0.5;

    /** In cycles, more than a whole group takes. */
    private static final double CUT_SHORT = 1.5;

    private final int readings;
    /** When each group came. */
    private final double[] time_s;
    /** Index after the last reading of each group. */
    private final int[] to;
    /** The device's cycles up to the last reading of each group. */
    private final long[] count;

    private double first_s;
    private double cycle_s;

    /** Times put back on the device's even pace where the link has delayed the readings; otherwise as they are. */
    static double[] evened(double[] time_s) {
        if (time_s.length < FEWEST_TIMES) {
            return time_s;
        }
        Pace pace = new Pace(time_s);
        double share = pace.unevenShare();
        if (share < FEW_UNEVEN) {
            return time_s;
        }
        pace.find();
        double[] even = pace.even();
        double stdDev_s = stdDev_s(time_s, even);
        boolean delayed = pace.isOnTicks(stdDev_s) || share > MANY_UNEVEN && stdDev_s < KEEPS_PACE * pace.cycle_s;
        return delayed ? even : time_s;
    }

    /** Of the differences. */
    private static double stdDev_s(double[] a, double[] b) {
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < a.length; i++) {
            double off = a[i] - b[i];
            sum += off;
            squares += off * off;
        }
        double mean = sum / a.length;
        return Math.sqrt(Math.max(0, squares / a.length - mean * mean));
    }

    private Pace(double[] all_s) {
        readings = all_s.length;
        double close_s = TOGETHER * (all_s[readings - 1] - all_s[0]) / (readings - 1);
        double[] t = new double[readings];
        int[] ends = new int[readings];
        int groups = 0;
        for (int i = 0; i < readings; i++) {
            if (i == 0 || all_s[i] - all_s[i - 1] > close_s) {
                t[groups++] = all_s[i];
            }
            ends[groups - 1] = i + 1;
        }
        time_s = Arrays.copyOf(t, groups);
        to = Arrays.copyOf(ends, groups);
        count = new long[groups];
    }

    private int size(int group) {
        return to[group] - (group == 0 ? 0 : to[group - 1]);
    }

    /** The share of readings that come earlier or later than usual after those before. */
    private double unevenShare() {
        double step_s = usualStep_s();
        int uneven = 0;
        for (int g = 1; g < time_s.length; g++) {
            uneven += size(g) - (Math.abs(time_s[g] - time_s[g - 1] - step_s) > UNEVEN * step_s ? 0 : 1);
        }
        return step_s > 0 ? (double) uneven / readings : 0;
    }

    /** The usual time from reading to reading: of many groups' times over their readings the mean of the middle half. */
    private double usualStep_s() {
        int n = time_s.length - 1;
        int stride = 1 + n / SEARCHED;
        double[] some = new double[n / stride];
        for (int i = 0; i < some.length; i++) {
            int g = 1 + i * stride;
            some[i] = (time_s[g] - time_s[g - 1]) / size(g);
        }
        Arrays.sort(some);
        // Weighing groups alike, a group of one short of its neighbours would count too much.
        int quarter = some.length / 4;
        return Arrays.stream(some, quarter, some.length - quarter).average().orElse(0);
    }

    private void find() {
        int all = time_s.length;
        search(Math.min(all, SEARCHED));
        for (double gain : new double[] {0.05, 0.02, 0.01}) {
            follow(all, cycle_s, gain);
            join(all);
        }
    }

    /** The cycle that explains the times best: small departures, and few losses, each of which must be paid for. */
    private void search(int groups) {
        double mean = (time_s[groups - 1] - time_s[0]) / (to[groups - 1] - to[0]);
        double best = mean;
        double least = Double.POSITIVE_INFINITY;
        for (double share = 1.02; share > MOST_LOST; share -= 0.002) {
            follow(groups, share * mean, 0.03);
            line(groups);
            double squares = 0;
            int losses = 0;
            for (int g = 0; g < groups; g++) {
                double off = time_s[g] - first_s - cycle_s * count[g];
                squares += off * off;
                losses += g > 0 && count[g] > count[g - 1] + size(g) ? 1 : 0;
            }
            double cost =
                    groups / 2.0 * Math.log(squares / groups + FLOOR * FLOOR * mean * mean) + losses * Math.log(groups);
            if (cost < least) {
                least = cost;
                best = cycle_s;
            }
        }
        cycle_s = best;
    }

    /** Counts the device's cycles up to each group; what is lost shows as a delay of more than half a cycle. */
    private void follow(int groups, double step_s, double gain) {
        double expected = time_s[0];
        count[0] = size(0) - 1;
        for (int g = 1; g < groups; g++) {
            expected += step_s * size(g);
            long lost = isCutShort(g, step_s) ? 0 : Math.max(0, Math.round((time_s[g] - expected) / step_s));
            expected += lost * step_s;
            count[g] = count[g - 1] + size(g) + lost;
            expected += gain * (time_s[g] - expected);
        }
    }

    /** Whether the readings after a group are lost, maybe some of its own too: its last may have waited like the first. */
    private boolean isCutShort(int group, double step_s) {
        return group + 1 == time_s.length || time_s[group + 1] - time_s[group] > (size(group + 1) + CUT_SHORT) * step_s;
    }

    /** Counts again what was lost between stretches without a loss: all of a stretch tells better than its beginning. */
    private void join(int groups) {
        double step_s = stepWithin_s(groups);
        double phase_s = 0;
        long shift = 0;
        int from = 0;
        for (int g = 1; g <= groups; g++) {
            if (g < groups && count[g] - count[g - 1] == size(g)) {
                continue;
            }
            double mean = 0;
            for (int k = from; k < g; k++) {
                count[k] += shift;
                mean += (time_s[k] - step_s * count[k]) / (g - from);
            }
            if (from > 0) {
                long more = Math.round((mean - phase_s / from) / step_s);
                more = Math.max(more, count[from - 1] + size(from) - count[from]);
                for (int k = from; k < g; k++) {
                    count[k] += more;
                }
                shift += more;
                mean -= step_s * more;
            }
            phase_s += (g - from) * mean;
            from = g;
        }
        line(groups);
    }

    /** The cycle that stretches without a loss tell, whatever lies between them. */
    private double stepWithin_s(int groups) {
        double kk = 0;
        double kt = 0;
        int from = 0;
        for (int g = 1; g <= groups; g++) {
            if (g < groups && count[g] - count[g - 1] == size(g)) {
                continue;
            }
            double middle = 0;
            for (int k = from; k < g; k++) {
                middle += (double) (count[k] - count[from]) / (g - from);
            }
            for (int k = from; k < g; k++) {
                double off = count[k] - count[from] - middle;
                kk += off * off;
                kt += off * (time_s[k] - time_s[from]);
            }
            from = g;
        }
        return kk > 0 ? kt / kk : cycle_s;
    }

    /** Least squares line of the groups' times over their counts. */
    private void line(int groups) {
        double middle = 0;
        double mean = 0;
        for (int g = 0; g < groups; g++) {
            middle += (double) count[g] / groups;
            mean += time_s[g] / groups;
        }
        double kk = 0;
        double kt = 0;
        for (int g = 0; g < groups; g++) {
            kk += (count[g] - middle) * (count[g] - middle);
            kt += (count[g] - middle) * (time_s[g] - mean);
        }
        cycle_s = kt / kk;
        first_s = mean - cycle_s * middle;
    }

    private double[] even() {
        double[] even = new double[readings];
        for (int g = 0; g < time_s.length; g++) {
            for (int i = to[g] - size(g); i < to[g]; i++) {
                even[i] = first_s + cycle_s * (count[g] - (to[g] - 1 - i));
            }
        }
        return even;
    }

    /** Whether a timer sends the readings on: it delays them evenly up to its period, of which all gaps are multiples. */
    private boolean isOnTicks(double stdDev_s) {
        double period_s = Math.sqrt(12) * stdDev_s;
        int stride = 1 + time_s.length / SEARCHED;
        double most = 0;
        for (double share = 0.8; share < 1.25; share *= 1.005) {
            double sum = 0;
            int n = 0;
            for (int g = 1; g < time_s.length; g += stride) {
                sum += Math.cos(2 * Math.PI * (time_s[g] - time_s[g - 1]) / (share * period_s));
                n++;
            }
            most = Math.max(most, sum / n);
        }
        return most > ON_TICKS;
    }
}
