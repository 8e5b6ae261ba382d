package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.util.FastMath;

/** The noise of a reading where nothing moves, from differences of neighbours, which no creep and no rocking touches much. */
final class RestNoise {
    private static final int FEWEST = 12;
    private static final double LONG_s = 1;
    private static final double MOST = 0.9;
    private static final double SEEN = 0.15;
    private static final double JUMP = 4;
    private static final double BLOCK_s = 1 / 3.0;
    private static final int BLOCK = 24;

    private RestNoise() {}

    /** Standard deviation without rounding, in millimetres; empty where too little of the trace is at rest. */
    static OptionalDouble of(CleanTrace trace, List<Still> stills) {
        double squares = 0;
        int n = 0;
        double[] y = trace.pressed_mm();
        for (Still still : stills) {
            for (int i = still.from() + 1; i < still.to() - 1; i++) {
                if (!trace.spike()[i - 1] && !trace.spike()[i] && !trace.spike()[i + 1]) {
                    double second = y[i] - (y[i - 1] + y[i + 1]) / 2;
                    squares += second * second / 1.5;
                    n++;
                }
            }
        }
        double q = trace.resolution_mm();
        return n < FEWEST
                ? OptionalDouble.empty()
                : OptionalDouble.of(FastMath.sqrt(Math.max(0, squares / n - q * q / 12)));
    }

    /**
     * The variance that counts in means of readings, where their noise hangs together from one to the next (a first-order
     * autoregression): for that the squares of differences over two readings and over one are as 1 + phi to 1, however
     * slowly the level moves. What jumps further than noise, as from one click to the next, is left out: it would pass for memory.
     * What hums looks like memory, but cancels in means: no more is taken than means of a third of a second show. Zero where
     * nothing like it is seen.
     *
     * @param reading_mm standard deviation of a reading
     */
    static double hangingTogether_mm2(CleanTrace trace, List<Still> stills, double reading_mm) {
        double one = 0;
        double two = 0;
        int pairs = 0;
        double[] y = trace.pressed_mm();
        for (Still still : stills) {
            if (isShort(trace, still)) {
                continue;
            }
            for (int i = still.from() + 2; i < still.to(); i++) {
                boolean jumps = Math.abs(y[i] - y[i - 2]) > JUMP * reading_mm;
                if (!jumps && !trace.spike()[i - 2] && !trace.spike()[i - 1] && !trace.spike()[i]) {
                    one += (y[i] - y[i - 1]) * (y[i] - y[i - 1]);
                    two += (y[i] - y[i - 2]) * (y[i] - y[i - 2]);
                    pairs++;
                }
            }
        }
        // Chance is not memory.
        double phi = one > 0 ? Math.min(two / one - 1 - 2 / FastMath.sqrt(pairs), MOST) : 0;
        double single_mm2 = one / Math.max(1, pairs) / 2;
        // Rounding looks like memory where the display hides the noise.
        return phi > 0 && single_mm2 > SEEN * trace.resolution_mm() * trace.resolution_mm()
                ? Math.min(single_mm2 / (1 - phi) * (1 + phi) / (1 - phi), ofMeans_mm2(trace, stills))
                : 0;
    }

    /** The variance of a reading that would explain how far means of blocks lie off the line through their neighbours; infinite where there are few. */
    private static double ofMeans_mm2(CleanTrace trace, List<Still> stills) {
        double squares = 0;
        int blocks = 0;
        for (Still still : stills) {
            double before = Double.NaN;
            double beforeThat = Double.NaN;
            int begin = still.from();
            for (int i = begin; !isShort(trace, still) && i < still.to(); i++) {
                int n = i - begin;
                if (n >= BLOCK && trace.time_s()[i] - trace.time_s()[begin] >= BLOCK_s) {
                    double mean =
                            Arrays.stream(trace.line_mm(), begin, i).average().orElseThrow();
                    double off = mean - 2 * before + beforeThat;
                    if (!Double.isNaN(off)) {
                        squares += n * off * off / 6;
                        blocks++;
                    }
                    beforeThat = before;
                    before = mean;
                    begin = i;
                }
            }
        }
        return blocks < FEWEST ? Double.POSITIVE_INFINITY : squares / blocks * (1 + 2 / FastMath.sqrt(blocks));
    }

    private static boolean isShort(CleanTrace trace, Still still) {
        return still.to() - still.from() < FEWEST || still.seconds(trace) < LONG_s;
    }
}
