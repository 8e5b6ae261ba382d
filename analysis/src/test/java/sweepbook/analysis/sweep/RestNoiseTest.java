package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RestNoiseTest {
    private static final double NOISE_mm = 0.0007;
    private static final double STEP_mm = 0.0001;

    private static double hangingTogether_mm2(double memory, double click_mm, long seed) {
        Random random = new Random(seed);
        int n = 400;
        double[] time_s = new double[n];
        double[] reading_mm = new double[n];
        double noise_mm = 0;
        for (int i = 0; i < n; i++) {
            time_s[i] = i / 20.0;
            double fresh_mm = NOISE_mm * Math.sqrt(1 - memory * memory) * random.nextGaussian();
            noise_mm = memory * noise_mm + fresh_mm;
            reading_mm[i] = Math.rint((click_mm * (i / 8) + noise_mm) / STEP_mm) * STEP_mm;
        }
        CleanTrace trace = CleanTrace.of(time_s, reading_mm, 1, STEP_mm);
        return RestNoise.hangingTogether_mm2(trace, List.of(new Still(0, n, 0)), NOISE_mm);
    }

    /** Law: a level that jumps every few readings is no memory of the noise, but for chance. */
    @Test
    void clicksAreNoMemory() {
        for (long seed = 0; seed < 20; seed++) {
            assertTrue(hangingTogether_mm2(0, 0.004, seed) < 2 * NOISE_mm * NOISE_mm, "seed " + seed);
        }
    }

    /** Law: in a mean, noise of memory phi counts (1 + phi) / (1 - phi) times, 5.7 here; what chance may feign is taken off. */
    @Test
    void memoryIsSeen() {
        double sum = 0;
        for (long seed = 0; seed < 20; seed++) {
            sum += hangingTogether_mm2(0.7, 0, seed) / NOISE_mm / NOISE_mm;
        }
        assertEquals(5, sum / 20, 2);
    }

    /** Law: what hums at three times a second cancels in the means of a rest. */
    @Test
    void aHumCountsInMeansForLittle() {
        Random random = new Random(1);
        double[] time_s = new double[1000];
        double[] reading_mm = new double[time_s.length];
        for (int i = 0; i < time_s.length; i++) {
            time_s[i] = i / 50.0;
            double hum_mm = 2 * NOISE_mm * Math.sin(2 * Math.PI * 3 * time_s[i]);
            reading_mm[i] = Math.rint((hum_mm + 0.3 * NOISE_mm * random.nextGaussian()) / STEP_mm) * STEP_mm;
        }
        CleanTrace trace = CleanTrace.of(time_s, reading_mm, 1, STEP_mm);
        double counts = RestNoise.hangingTogether_mm2(trace, List.of(new Still(0, time_s.length, 0)), NOISE_mm);
        assertTrue(counts < 10 * NOISE_mm * NOISE_mm, counts / NOISE_mm / NOISE_mm + " times");
    }
}
