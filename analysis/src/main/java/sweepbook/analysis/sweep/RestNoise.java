package sweepbook.analysis.sweep;

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
     * Zero where nothing like it is seen.
     *
     * @param reading_mm standard deviation of a reading
     */
    static double hangingTogether_mm2(CleanTrace trace, List<Still> stills, double reading_mm) {
        double one = 0;
        double two = 0;
        int pairs = 0;
        double[] y = trace.pressed_mm();
        for (Still still : stills) {
            if (still.to() - still.from() < FEWEST || still.seconds(trace) < LONG_s) {
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
                ? single_mm2 / (1 - phi) * (1 + phi) / (1 - phi)
                : 0;
    }
}
