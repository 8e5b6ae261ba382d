package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * The jog between the dwell on the crest and the stable zero, decoded as whole steps of one of the sizes that machines
 * jog by: the size on whose multiples the readings of the jog stand best.
 */
final class JogSteps {
    /** Hundredths and tenths of a millimetre, thousandths and hundredths of an inch (common practice). */
    private static final double[] STEPS_mm = {0.01, 0.0254, 0.1, 0.254};

    /** Of the readings in a jog, so many are taken between two levels. */
    private static final double MOVING_SHARE = 0.25;
    /** A machine mostly jogs in the unit of the indicator that is brought to it; in log likelihood. */
    private static final double LIKELIER = 3;
    /** Below this part of a step, noise lets each reading be put on its level. */
    private static final double CLEAR = 0.2;

    private final CleanTrace trace;
    private final int from;
    private final int to;
    private final double dwell_mm;
    private final double zero_mm;
    private final double noise_mm;

    /**
     * @param from reading at which the dwell on the crest ends
     * @param to reading at which the last dwell begins
     */
    JogSteps(CleanTrace trace, int from, int to, double dwell_mm, double zero_mm, double noise_mm) {
        this.trace = trace;
        this.from = from;
        this.to = to;
        this.dwell_mm = dwell_mm;
        this.zero_mm = zero_mm;
        this.noise_mm = noise_mm;
    }

    /** The steps; sign turns them back into the direction of the readings. */
    JogClicks clicks(int sign) {
        double travel = zero_mm - dwell_mm;
        double best = Double.NaN;
        double bestGain = Double.NEGATIVE_INFINITY;
        for (double step : STEPS_mm) {
            double gain = gain(step) + (sameUnit(step) ? LIKELIER : 0);
            if (gain > bestGain) {
                bestGain = gain;
                best = step;
            }
        }
        long net = FastMath.round(travel / best);
        if (net == 0 && noise_mm > CLEAR * best) {
            return JogClicks.NONE;
        }
        int count = noise_mm > CLEAR * best ? (int) Math.abs(net) : walked(best, net);
        return count == 0 ? JogClicks.NONE : new JogClicks(count, (int) net, best, sign * travel);
    }

    /** How much better the readings fit levels a step apart than no levels at all; the last dwell counts like ten. */
    private double gain(double step) {
        double gain = 10 * gain(zero_mm, step);
        for (int i = from; i < to; i++) {
            if (!trace.spike()[i]) {
                gain += gain(trace.pressed_mm()[i], step);
            }
        }
        return gain;
    }

    /** Whether the step belongs to the unit of the display: a round number of either. */
    private boolean sameUnit(double step) {
        double ratio = step / 10 / trace.resolution_mm();
        double times = ratio < 1 ? 1 / ratio : ratio;
        return trace.resolution_mm() > 0 && Math.abs(times - Math.rint(times)) < 1e-3;
    }

    private double gain(double level_mm, double step) {
        double k = (level_mm - dwell_mm) / step;
        double off = (k - FastMath.rint(k)) * step / noise_mm;
        double density = 0;
        // Where the noise reaches over to the next levels the density flattens out at 1: such readings tell nothing.
        for (int j = -4; j <= 4; j++) {
            double z = off + j * step / noise_mm;
            density += step / noise_mm * FastMath.exp(-z * z / 2) / FastMath.sqrt(2 * FastMath.PI);
        }
        return FastMath.log((1 - MOVING_SHARE) * density + MOVING_SHARE);
    }

    /** Steps walked back and forth, a level counting once two readings in a row stand on it. */
    private int walked(double step, long net) {
        long at = 0;
        long before = 0;
        int count = 0;
        for (int i = from; i < to; i++) {
            double k = (trace.pressed_mm()[i] - dwell_mm) / step;
            long level = FastMath.round(k);
            boolean on = Math.abs(k - level) * step < Math.max(3 * noise_mm, 0.2 * step);
            if (on && level == before && level != at) {
                count += (int) Math.abs(level - at);
                at = level;
            }
            before = on ? level : Long.MIN_VALUE;
        }
        return count + (int) Math.abs(net - at);
    }
}
