package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Laws of the drift that parts passes; readings count in steps of the display. */
class SteadyTraceTest {
    /** Each crest lies eight steps above the one before, and none is any other's level. */
    @Test
    void findsPassesOnALine() {
        SteadyTrace found = SteadyTrace.of(drifting(2), Double.NaN);
        assertEquals(4, found.finder().windows().size());
        assertEquals(2, found.drift_mm_per_s(), 0.05);
        assertEquals(8, found.moved_mm(14) - found.moved_mm(10), 0.2);
    }

    @Test
    void takesNothingOutOfLevelPasses() {
        SteadyTrace found = SteadyTrace.of(drifting(0), Double.NaN);
        assertEquals(4, found.finder().windows().size());
        assertEquals(0, found.drift_mm_per_s());
    }

    /** Four passes of 4 s, each with a crest in the middle, then a stop. */
    private static CleanTrace drifting(double per_s) {
        double[] time_s = IntStream.range(0, 400).mapToDouble(i -> i / 20.0).toArray();
        double[] readings = IntStream.range(0, time_s.length)
                .mapToDouble(i -> {
                    double t = time_s[i];
                    double side = t < 16 ? t % 4 / 2 - 1 : Math.max(0, 17 - t);
                    return Math.rint(60 * (1 - side * side) + per_s * t + 0.3 * Math.sin(7.7 * i));
                })
                .toArray();
        return CleanTrace.of(time_s, readings, 1, 1);
    }
}
