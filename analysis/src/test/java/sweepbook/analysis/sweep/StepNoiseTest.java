package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.function.LongToDoubleFunction;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class StepNoiseTest {
    private static final int SWEEPS = 200;

    /** Simulated truth: passes of seven readings each between rests of four, noise of standard deviation 1; windows tell twice as much. */
    @Test
    void isMostlyToldByRestsOfFourReadings() {
        assertEquals(2.2, median(seed -> WindowNoise.of(sweep(seed))), 0.4);
        assertEquals(1, median(seed -> told(sweep(seed))), 0.3);
    }

    /** Law: where nothing moves, it is what the readings scatter by. */
    @Test
    void isThatOfAllReadingsWhereNothingMoves() {
        double noise = median(seed ->
                told(new Random(seed).doubles(60, -Math.sqrt(3), Math.sqrt(3)).toArray()));
        assertEquals(1, noise, 0.1);
    }

    /** Law: it is no more than what windows say, and no less than what is taken for granted. */
    @Test
    void liesBetweenTheMostAndTheLeast() {
        double[] readings = sweep(1);
        assertEquals(0.2, StepNoise.of(readings, 0.2, 0.1), 0.1);
        assertTrue(StepNoise.of(readings, 0.2, 0.1) >= 0.1);
        assertEquals(0.3, StepNoise.of(new double[60], 1, 0.3));
        assertEquals(0.3, StepNoise.of(new double[1], 1, 0.3));
    }

    private static double told(double[] readings) {
        return StepNoise.of(readings, Math.max(0.3, WindowNoise.of(readings)), 0.3);
    }

    private static double median(LongToDoubleFunction of) {
        double[] sorted = LongStream.range(0, SWEEPS).mapToDouble(of).sorted().toArray();
        return sorted[SWEEPS / 2];
    }

    /** A rest, four passes, a rest, a jog in large steps, a rest: what a slow display shows of it. */
    private static double[] sweep(long seed) {
        Random random = new Random(seed);
        double depth = 20 + 100 * random.nextDouble();
        double phase = random.nextDouble();
        double[] readings = new double[52];
        Arrays.setAll(readings, i -> random.nextGaussian() + level(i, depth, phase));
        return readings;
    }

    private static double level(int i, double depth, double phase) {
        if (i < 4) {
            return -200;
        }
        if (i < 32) {
            return -depth * Math.pow(Math.sin(Math.PI * (i - 4 + phase) / 7), 2);
        }
        return i < 36 ? 0 : i < 48 ? 12 * (i - 35) : 150;
    }
}
