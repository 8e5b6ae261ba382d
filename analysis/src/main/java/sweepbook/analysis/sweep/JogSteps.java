package sweepbook.analysis.sweep;

import java.util.List;
import java.util.stream.DoubleStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The jog between the dwell on the crest and the stable zero, decoded as whole steps of one of the sizes that machines
 * jog by: the size on whose multiples the readings of the jog stand best.
 */
final class JogSteps {
    /** Hundredths and tenths of a millimetre, thousandths and hundredths of an inch (common practice). */
    private static final double[] STEPS_mm = {0.01, 0.0254, 0.1, 0.254};

    /** Of the levels of a jog, so many are readings taken between two. */
    private static final double MOVING_SHARE = 0.25;
    /** A click is as long as it should be to within this part of it. */
    private static final double INEXACT = 0.03;
    /** A machine mostly jogs in the unit of the indicator that is brought to it, and near the zero by its small step; in log likelihood. */
    private static final double LIKELIER = 4;

    private static final double COARSE_mm = 0.05;
    /** Where the stop on the crest lies between two levels is tried out in so many places to either side. */
    private static final int SHIFTS = 6;
    /** Below this part of a step, noise lets each reading be put on its level. */
    private static final double CLEAR = 0.2;

    /** The last dwell is known best: it counts like so many readings. */
    private static final double ZERO_COUNTS = 20;

    private final List<Still> levels;
    private final List<Size> sizes;
    private final double dwell_mm;
    private final double dwellU_mm;
    private final double zero_mm;
    private final double noise_mm;

    /** A size of step, and how likely it is before the trace is looked at, in log likelihood. */
    record Size(double step_mm, double likely) {}

    /** What machines jog by, where no step is told; of the unit of the display rather than of the other, which is round in it. */
    static List<Size> sizes(double told_mm, double resolution_mm) {
        if (told_mm > 0) {
            return List.of(new Size(told_mm, 0));
        }
        return DoubleStream.of(STEPS_mm)
                .mapToObj(step -> new Size(
                        step, (isRound(step / 10, resolution_mm) ? LIKELIER : 0) - (step > COARSE_mm ? LIKELIER : 0)))
                .toList();
    }

    private static boolean isRound(double length_mm, double resolution_mm) {
        double ratio = length_mm / resolution_mm;
        double times = ratio < 1 ? 1 / ratio : ratio;
        return resolution_mm > 0 && Math.abs(times - Math.rint(times)) < 1e-3;
    }

    /**
     * @param levels between the dwell on the crest and the last dwell, in time order
     * @param noise_mm standard deviation of a reading, rounding included
     */
    JogSteps(List<Still> levels, List<Size> sizes, Estimate dwell, double zero_mm, double noise_mm) {
        this.levels = levels;
        this.sizes = sizes;
        dwell_mm = dwell.value();
        dwellU_mm = dwell.stdU();
        this.zero_mm = zero_mm;
        this.noise_mm = noise_mm;
    }

    JogClicks clicks() {
        double travel = zero_mm - dwell_mm;
        double best = Double.NaN;
        double bestGain = Double.NEGATIVE_INFINITY;
        for (Size size : sizes) {
            double gain = gain(size.step_mm) + size.likely;
            if (gain > bestGain) {
                bestGain = gain;
                best = size.step_mm;
            }
        }
        long net = FastMath.round(travel / best);
        int count = noise_mm > CLEAR * best ? (int) Math.abs(net) : walked(best, net);
        return count == 0 ? JogClicks.NONE : new JogClicks(count, (int) net, best, travel);
    }

    /** How much better the levels lie on whole steps from the stop on the crest than anywhere. */
    private double gain(double step) {
        double[] gains = new double[2 * SHIFTS + 1];
        double best = Double.NEGATIVE_INFINITY;
        for (int i = 0; i <= 2 * SHIFTS; i++) {
            double off = 3.0 * (i - SHIFTS) / SHIFTS;
            gains[i] = gain(dwell_mm + off * dwellU_mm, step) - off * off / 2;
            best = Math.max(best, gains[i]);
        }
        double sum = 0;
        for (double gain : gains) {
            sum += FastMath.exp(gain - best);
        }
        return best + FastMath.log(sum);
    }

    private double gain(double from_mm, double step) {
        double gain = gain(zero_mm - from_mm, ZERO_COUNTS, step);
        for (Still level : levels) {
            gain += gain(level.level_mm() - from_mm, level.to() - level.from(), step);
        }
        return gain;
    }

    private double gain(double travel_mm, double readings, double step) {
        double k = travel_mm / step;
        // Averaging helps against noise, not against a digit on which the needle stands, nor a click that is not exact.
        double noise = FastMath.hypot(noise_mm / FastMath.sqrt(readings), INEXACT * step) + 0.1 * noise_mm;
        double off = (k - FastMath.rint(k)) * step / noise;
        double density = 0;
        // Where the noise reaches over to the next levels the density flattens out at 1: such levels tell nothing.
        for (int j = -4; j <= 4; j++) {
            double z = off + j * step / noise;
            density += step / noise * FastMath.exp(-z * z / 2) / FastMath.sqrt(2 * FastMath.PI);
        }
        return FastMath.log((1 - MOVING_SHARE) * density + MOVING_SHARE);
    }

    /** Steps walked back and forth, from level to level. */
    private int walked(double step, long net) {
        long at = 0;
        int count = 0;
        for (Still still : levels) {
            double k = (still.level_mm() - dwell_mm) / step;
            long level = FastMath.round(k);
            // A lone reading may have been taken between two levels.
            if (still.to() - still.from() > 1 && Math.abs(k - level) * step < Math.max(2 * noise_mm, 0.2 * step)) {
                count += (int) Math.abs(level - at);
                at = level;
            }
        }
        return count + (int) Math.abs(net - at);
    }
}
