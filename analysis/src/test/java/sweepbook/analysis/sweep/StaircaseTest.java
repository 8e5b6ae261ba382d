package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class StaircaseTest {
    private static final double RATE_per_s = 20;
    private static final double CLICK_mm = 0.01;

    /** Three seconds on one level, so many clicks half a second apart, and five seconds of rest that may creep. */
    private static CleanTrace jog(int clicks, double noise_mm, double creep_mm_per_s, long seed) {
        Random random = new Random(seed);
        double jogged_s = 3 + 0.5 * (clicks - 1);
        int n = (int) ((jogged_s + 5) * RATE_per_s);
        double[] time_s = new double[n];
        double[] reading_mm = new double[n];
        for (int i = 0; i < n; i++) {
            time_s[i] = i / RATE_per_s;
            int done = (int) Math.max(0, Math.min(clicks, Math.floor((time_s[i] - 3) / 0.5) + 1));
            double creep_mm = creep_mm_per_s * Math.max(0, time_s[i] - jogged_s);
            reading_mm[i] = 0.001 * Math.rint((done * CLICK_mm + creep_mm + noise_mm * random.nextGaussian()) / 0.001);
        }
        return CleanTrace.of(time_s, reading_mm, 1, 0.001);
    }

    /** Simulated truth. */
    @Test
    void everyClickIsALevel() {
        for (long seed = 0; seed < 20; seed++) {
            CleanTrace trace = jog(7, 0.0008, 0, seed);
            List<Still> levels = Staircase.levels(trace, 0, trace.size(), 0.8e-6, 0.006);
            assertEquals(8, levels.size(), "seed " + seed);
            for (int k = 0; k < 8; k++) {
                assertEquals(k * CLICK_mm, levels.get(k).level_mm(), 0.001, "level " + k + ", seed " + seed);
            }
        }
    }

    /** Simulated truth: the last stretch begins with the last click, whether it creeps or not. */
    @Test
    void theLastStretchBeginsWithTheLastClick() {
        for (long seed = 0; seed < 20; seed++) {
            for (double creep_mm_per_s : new double[] {0, 0.0005, -0.002}) {
                CleanTrace trace = jog(7, 0.0008, creep_mm_per_s, seed);
                Still last =
                        Staircase.last(trace, 0, trace.size(), 0.8e-6, 0.006).orElseThrow();
                String where = "creep " + creep_mm_per_s + " mm/s, seed " + seed;
                assertEquals(6.0, trace.time_s()[last.from()], 0.11, where);
                assertEquals(trace.size(), last.to(), where);
            }
        }
    }

    /** Law. */
    @Test
    void levelsFollowEachOtherWithoutAGap() {
        CleanTrace trace = jog(12, 0.004, 0, 5);
        int at = 0;
        for (Still level : Staircase.levels(trace, 0, trace.size(), 16e-6, 0.006)) {
            assertEquals(at, level.from());
            at = level.to();
        }
        assertEquals(trace.size(), at);
        assertTrue(Staircase.levels(trace, 3, 3, 16e-6, 0.006).isEmpty());
    }
}
