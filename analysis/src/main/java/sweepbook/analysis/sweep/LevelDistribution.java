package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * How probable each level is given the readings of a stretch, nothing being known of it before, on a grid. Where the display
 * hides the noise, how near the level lies to the edge of a digit depends on a noise that nobody knows: its distribution is
 * averaged over.
 */
final class LevelDistribution {
    private static final int NODES = 200;
    /** A distribution narrower than this part of the grid is looked at on a finer one, which reaches so many standard deviations. */
    private static final double NARROW = 0.03;

    private static final double REACH = 8;
    /** In log probability below the likeliest: what counts for nothing. */
    private static final double NOTHING = 30;
    /** 95 % of a normal distribution lie within so many standard deviations. */
    private static final double NORMAL = 1.959964;

    private final double middle_mm;
    private final double half_mm;
    /** Noises that count. */
    private final List<HiddenNoise> likely;

    private final double[] share;
    private final double offset_mm;
    private final double variance_mm2;

    /**
     * @param sorted_mm the readings
     * @param counts how many alike begin at each first of them
     * @param half_mm how far about the middle the level may lie
     */
    static LevelDistribution of(
            double[] sorted_mm, int[] counts, List<HiddenNoise> noises, double middle_mm, double half_mm) {
        LevelDistribution level = new LevelDistribution(sorted_mm, counts, noises, middle_mm, half_mm);
        return level.stdU_mm() >= NARROW * half_mm
                ? level
                : new LevelDistribution(
                        sorted_mm,
                        counts,
                        level.likely,
                        level.mean_mm(),
                        REACH * Math.max(level.stdU_mm(), 2 * half_mm / NODES));
    }

    private LevelDistribution(
            double[] sorted_mm, int[] counts, List<HiddenNoise> noises, double middle_mm, double half_mm) {
        this.middle_mm = middle_mm;
        this.half_mm = half_mm;
        double[][] log = new double[noises.size()][NODES + 1];
        double best = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < log.length; i++) {
            for (int k = 0; k <= NODES; k++) {
                log[i][k] = noises.get(i).log(sorted_mm, counts, middle_mm + off_mm(k));
                best = Math.max(best, log[i][k]);
            }
        }
        likely = new ArrayList<>();
        share = new double[NODES + 1];
        double sum = 0;
        double first = 0;
        for (int i = 0; i < log.length; i++) {
            double before = sum;
            for (int k = 0; k <= NODES; k++) {
                if (log[i][k] > best - NOTHING) {
                    double weight = FastMath.exp(log[i][k] - best);
                    share[k] += weight;
                    sum += weight;
                    first += weight * off_mm(k);
                }
            }
            if (sum > before) {
                likely.add(noises.get(i));
            }
        }
        offset_mm = first / sum;
        double second = 0;
        for (int k = 0; k <= NODES; k++) {
            share[k] /= sum;
            second += share[k] * away_mm(k) * away_mm(k);
        }
        variance_mm2 = second;
    }

    double mean_mm() {
        return middle_mm + offset_mm;
    }

    double stdU_mm() {
        return FastMath.sqrt(variance_mm2);
    }

    /** How far about the mean 95 % of it reach, over how far they would if it were normal. */
    double breadth() {
        Integer[] byDistance = new Integer[NODES + 1];
        Arrays.setAll(byDistance, k -> k);
        Arrays.sort(byDistance, Comparator.comparingDouble(this::away_mm));
        double within = 0;
        int last = 0;
        while (within < 0.95 && last < byDistance.length) {
            within += share[byDistance[last++]];
        }
        double reach = away_mm(byDistance[last - 1]) / stdU_mm() / NORMAL;
        return Math.max(Estimate.EVEN, Math.min(1.2, reach));
    }

    private double away_mm(int node) {
        return Math.abs(off_mm(node) - offset_mm);
    }

    private double off_mm(int node) {
        return half_mm * (2.0 * node / NODES - 1);
    }
}
