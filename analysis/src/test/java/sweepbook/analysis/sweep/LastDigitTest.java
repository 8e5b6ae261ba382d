package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Law: three digits one after the other, of a display of a hundredth of a millimetre, 50 readings a second; the first two held for two seconds. */
class LastDigitTest {
    private static final double STEP_mm = 0.01;
    private static final int HELD = 100;

    /**
     * Whether a creep is possible where the last digit is held so long.
     *
     * @param blurred readings before each change that already show the next digit, each third of them
     * @param noisy of all readings the part that shows the digit before or after
     */
    private static boolean mayCreep(double lasts_s, int blurred, double noisy) {
        Random random = new Random(1);
        int n = 2 * HELD + (int) (50 * lasts_s);
        double[] time_s = new double[n];
        double[] digit = new double[n];
        Arrays.setAll(time_s, i -> i / 50.0);
        Arrays.setAll(digit, i -> {
            int change = HELD - i % HELD;
            boolean isEarly = i < 2 * HELD && change <= blurred && change % 3 == 0;
            double off = random.nextDouble() < noisy ? Math.rint(2 * random.nextDouble() - 1) : 0;
            return STEP_mm * (Math.min(2, i / HELD) + (isEarly ? 1 : 0) + off);
        });
        CleanTrace trace = CleanTrace.of(time_s, digit, 1, STEP_mm);
        List<Still> levels =
                List.of(new Still(0, HELD, 0), new Still(HELD, 2 * HELD, STEP_mm), new Still(2 * HELD, n, 2 * STEP_mm));
        return new LastDigit(trace, levels).mayCreep();
    }

    @Test
    void whatBlursItsChangesMayCreepUntilTheLastDigitStandsLongerThanTheOneBefore() {
        assertTrue(mayCreep(1, 12, 0));
        assertTrue(mayCreep(2.5, 12, 0));
        assertFalse(mayCreep(3.5, 12, 0));
    }

    @Test
    void sharpChangesAreClicks() {
        assertFalse(mayCreep(1.5, 0, 0));
    }

    @Test
    void whatIsBlurredAllTheTimeIsNoise() {
        assertFalse(mayCreep(1.5, 0, 0.6));
    }
}
