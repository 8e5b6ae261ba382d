package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.hipparchus.util.FastMath;

/**
 * A noise that the readings of a dwell may have, and how likely it was before they were looked at. How near a level lies
 * to the edge of a digit depends on the noise, which a coarse display hides: every noise is tried.
 */
final class HiddenNoise {
    /** Spikes are spread over this many times the noise; where that is hidden, alike for all that are tried, or many spikes would tell it. */
    private static final double SPIKES_REACH = 60;

    /** Shares of the readings that may be spikes; tables are kept for each. */
    private static final double[] SPIKE_SHARES = {0.03, 5e-3, 5e-4, 5e-5};
    /** Above this part of a step rounding is but a part of the noise, and the mean of the readings is their level. */
    private static final double SEEN = 0.7;
    /** The logarithm of what the passes showed is good to so much: what no motion explains adds to it. */
    private static final double CALMER = 0.6;

    private static final double NOISIER = 0.4;
    private static final double LEAST_SHOWN = 0.05;
    private static final double LEAST = 0.02;
    private static final double FINE = 0.1;

    /** So many standard deviations off only spikes lie. */
    private static final double FAR = 7;

    private static final int NODES = 1024;

    private final Table table;
    private final double nodesPer_mm;
    private final double logWeight;

    private HiddenNoise(Table table, double scale_mm, double logWeight) {
        this.table = table;
        nodesPer_mm = table.nodesPerUnit / scale_mm;
        this.logWeight = logWeight;
    }

    /** Log density of a reading, a spike mostly not, by its distance from the level: the curve is asked for too often to be worked out. */
    private static final class Table {
        final double[] log = new double[NODES + 1];
        final double nodesPerUnit;

        Table(double sigma, double step, double spikesReach, double spikeShare) {
            Rounding rounding = new Rounding(sigma, step);
            double flat = spikeShare / spikesReach;
            nodesPerUnit = NODES / (step / 2 + FAR * sigma);
            for (int i = 0; i <= NODES; i++) {
                log[i] = FastMath.log(flat + FastMath.exp(rounding.log(i / nodesPerUnit)));
            }
        }

        double log(double node) {
            if (node >= NODES) {
                return log[NODES];
            }
            int i = (int) node;
            return log[i] + (node - i) * (log[i + 1] - log[i]);
        }
    }

    /** The noises of a display of step 1 that are tried, and for each share of spikes their tables. */
    private static final class Tables {
        static final double[] PARTS = DoubleStream.iterate(
                        LEAST, part -> part < 2 * SEEN, part -> part * (part < FINE ? 1.4 : 1.15))
                .toArray();

        static final List<List<Table>> BY_SHARE = DoubleStream.of(SPIKE_SHARES)
                .mapToObj(share -> DoubleStream.of(PARTS)
                        .mapToObj(part -> new Table(part, 1, reach(SEEN, 1), share))
                        .toList())
                .toList();
    }

    /**
     * The noises to try where the passes showed this one.
     *
     * @param spikeShare share of readings that may be spikes, roughly
     */
    static List<HiddenNoise> like(double noise_mm, double resolution_mm, double spikeShare) {
        int at = 0;
        while (at + 1 < SPIKE_SHARES.length && SPIKE_SHARES[at + 1] >= spikeShare) {
            at++;
        }
        if (noise_mm >= SEEN * resolution_mm) {
            double sigma = Math.max(noise_mm, 1e-9);
            Table table = new Table(sigma, resolution_mm, reach(sigma, resolution_mm), SPIKE_SHARES[at]);
            return List.of(new HiddenNoise(table, 1, 0));
        }
        List<HiddenNoise> noises = new ArrayList<>();
        double shown = Math.max(noise_mm / resolution_mm, LEAST_SHOWN);
        for (int i = 0; i < Tables.PARTS.length; i++) {
            double part = Tables.PARTS[i];
            double off = FastMath.log(part / shown) / (part < shown ? CALMER : NOISIER);
            double spacing = part < FINE ? FastMath.log(1.4) : FastMath.log(1.15);
            Table table = Tables.BY_SHARE.get(at).get(i);
            noises.add(new HiddenNoise(table, resolution_mm, FastMath.log(spacing) - off * off / 2));
        }
        return noises;
    }

    private static double reach(double sigma, double step) {
        return SPIKES_REACH * FastMath.sqrt(sigma * sigma + step * step / 12);
    }

    /** Log probability of this noise and of readings about a level; counts say how many alike begin at each first of them. */
    double log(double[] readings_mm, int[] counts, double level_mm) {
        double sum = logWeight;
        for (int i = 0; i < readings_mm.length; i += counts[i]) {
            sum += counts[i] * table.log(Math.abs(readings_mm[i] - level_mm) * nodesPer_mm);
        }
        return sum;
    }
}
