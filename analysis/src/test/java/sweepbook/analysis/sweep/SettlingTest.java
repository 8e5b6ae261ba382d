package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Simulated truth: a rest of 12 s at 30 readings a second, noise of one, of which all but the first half second is used. */
class SettlingTest {
    private static Settling settling(long seed, DoubleUnaryOperator moves) {
        Random random = new Random(seed);
        double[] time_s = new double[360];
        double[] reading = new double[time_s.length];
        for (int i = 0; i < time_s.length; i++) {
            time_s[i] = i / 30.0;
            reading[i] = moves.applyAsDouble(time_s[i]) + random.nextGaussian();
        }
        return Settling.of(time_s, reading, 0.5, 1);
    }

    @Test
    void aSteadyDriftIsNoSettling() {
        for (long seed = 0; seed < 20; seed++) {
            Settling found = settling(seed, t -> 0.3 * t);
            assertEquals(0, found.mean_mm(), 0.03, "seed " + seed);
            assertEquals(0, found.begins_mm(), "seed " + seed);
        }
    }

    /** From the level of a click before, which the stretch begins with. */
    @Test
    void whatSettlesIsFollowedFromItsBegin() {
        for (long seed = 0; seed < 20; seed++) {
            Settling found = settling(seed, t -> t < 0.7 ? -12 : -12 * Math.exp(-(t - 0.7) / 0.63));
            assertEquals(0.7 + 0.63 * Math.log(12), found.isWithin_s(1), 0.5, "seed " + seed);
        }
    }

    @Test
    void whatStandsIsLeftAsItIs() {
        for (long seed = 0; seed < 20; seed++) {
            Settling found = settling(seed, t -> 0);
            assertTrue(Math.abs(found.mean_mm()) < 0.02 && found.stdU_mm() < 0.03, "seed " + seed);
        }
    }
}
