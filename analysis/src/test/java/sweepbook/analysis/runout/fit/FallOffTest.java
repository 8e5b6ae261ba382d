package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class FallOffTest {
    private static final int PARTS = 300;
    private static final double STRENGTH_MM2 = 4e-6;
    private static final double NOISE_MM2 = 1e-9;

    private static double variance_mm2(int upr, double power) {
        return STRENGTH_MM2 * Math.pow(upr, -power);
    }

    /** Simulated truth: over parts of every power alike, on average as much lies beyond as is told. */
    @Test
    void onAverageAsMuchLiesBeyond() {
        Random random = new Random(2);
        double told_mm2 = 0;
        double true_mm2 = 0;
        for (int part = 0; part < PARTS; part++) {
            double power = 2 + random.nextInt(7);
            FallOff fallOff = new FallOff();
            for (int n = 2; n <= 9; n++) {
                double both_mm2 = variance_mm2(n, power) + NOISE_MM2;
                fallOff.saw(n, both_mm2 * (square(random) + square(random)) / 2, NOISE_MM2);
            }
            told_mm2 += fallOff.beyond_mm2(9, 15);
            true_mm2 += IntStream.rangeClosed(10, 15)
                    .mapToDouble(n -> variance_mm2(n, power))
                    .sum();
        }
        assertEquals(1, told_mm2 / true_mm2, 0.2, "seed 2, " + PARTS + " parts");
    }

    private static double square(Random random) {
        return Math.pow(random.nextGaussian(), 2);
    }

    /** Law: where nothing is seen, or nothing left to see, nothing is told. */
    @Test
    void ofNothingNothing() {
        FallOff fallOff = new FallOff();
        assertEquals(0, fallOff.beyond_mm2(5, 15));
        fallOff.saw(2, 1e-6, NOISE_MM2);
        assertEquals(0, fallOff.beyond_mm2(15, 15));
    }
}
