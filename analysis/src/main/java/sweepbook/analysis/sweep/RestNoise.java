package sweepbook.analysis.sweep;

import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.util.FastMath;

/** The noise of a reading where nothing moves, from differences of neighbours, which no creep and no rocking touches much. */
final class RestNoise {
    private static final int FEWEST = 12;

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
}
