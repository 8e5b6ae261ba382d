package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class WindowNoiseTest {
    /** Simulated truth: normal noise of standard deviation 1. */
    @Test
    void isToldWithinATenthWhereMostIsAtRest() {
        double rms = Math.sqrt(LongStream.range(0, 200)
                .mapToDouble(WindowNoiseTest::off)
                .map(off -> off * off)
                .average()
                .orElseThrow());
        assertTrue(rms < 0.1, () -> "root mean square error " + rms);
    }

    private static double off(long seed) {
        double[] readings =
                DoubleStream.generate(new Random(seed)::nextGaussian).limit(250).toArray();
        return WindowNoise.of(readings) - 1;
    }
}
