package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DigitFlickerTest {
    private static final double Q_MM = 0.01;
    private static final double PER_SECOND = 100;

    /** Law: where the sweep is slow, the digits flicker as often as the noise that was put in makes them, however much a display hides it. */
    @ParameterizedTest
    @ValueSource(doubles = {0.05, 0.1, 0.2, 0.35})
    void isTheNoiseThatMadeTheDigitsFlicker(double part) {
        OptionalDouble told = noise(part, 4);
        assertEquals(part, told.orElseThrow() / Q_MM, 0.1 * part + 0.01);
    }

    /** Law: without noise each digit comes once. */
    @Test
    void isNoneWhereEachDigitComesOnce() {
        assertEquals(0, noise(0, 4).orElseThrow());
    }

    /** Law: what the display shows, and what passes too fast, it does not tell. */
    @Test
    void isNotToldWhereTheReadingsShowItOrTheSweepIsFast() {
        assertTrue(noise(0.8, 4).isEmpty());
        assertTrue(noise(0.1, 200).isEmpty());
    }

    /** Four crossings of a crest that fall by 24 steps each, at so many steps a second. */
    private static OptionalDouble noise(double part, double steps_per_s) {
        Random random = new Random(3);
        double fall_mm = 24 * Q_MM;
        double flank_s = 24 / steps_per_s;
        int readings = (int) (8 * flank_s * PER_SECOND);
        double[] time_s = new double[readings];
        double[] reading_mm = new double[readings];
        for (int i = 0; i < readings; i++) {
            time_s[i] = i / PER_SECOND;
            double within = time_s[i] % (2 * flank_s) / flank_s;
            double level_mm = 0.3 * Q_MM - fall_mm * Math.abs(within - 1);
            reading_mm[i] = Math.rint((level_mm + part * Q_MM * random.nextGaussian()) / Q_MM) * Q_MM;
        }
        CleanTrace trace = CleanTrace.of(time_s, reading_mm, 1, Q_MM);
        List<PassFinder.Window> windows = new PassFinder(trace, Double.NaN).windows();
        assertTrue(windows.size() >= 3, () -> "windows " + windows);
        return DigitFlicker.noise_mm(trace, windows);
    }
}
