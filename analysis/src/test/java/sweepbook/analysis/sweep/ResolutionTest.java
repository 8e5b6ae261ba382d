package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sweepbook.acquisition.trace.LengthUnit;

class ResolutionTest {
    /** Readings that are no whole numbers in binary: the step is the display's own, to the last digit. */
    @ParameterizedTest
    @ValueSource(doubles = {0.00005, 0.0001, 0.0005, 0.001})
    void isTheDisplaysOwnStep(double step_in) {
        Random random = new Random(3);
        double[] readings_mm = random.ints(3000, -900, 900)
                .mapToDouble(count -> LengthUnit.IN.toMm(Math.rint(count) * step_in))
                .toArray();
        double step_mm = Resolution.of(readings_mm, Double.NaN);
        assertEquals(25.4 * step_in, step_mm, Math.ulp(step_mm));
        assertEquals(LengthUnit.IN.decimals(25.4 * step_in), LengthUnit.IN.decimals(step_mm));
    }

    /** Two spikes have a common divisor by chance; the digits that were written have the display's. */
    @Test
    void isTheLastDigitWhereFewReadingsDiffer() {
        double[] readings_mm = new double[500];
        readings_mm[100] = 0.9;
        readings_mm[300] = 1.2;
        assertEquals(0.001, Resolution.of(readings_mm, 0.001));
        assertEquals(0.3, Resolution.of(readings_mm, Double.NaN), 1e-9);
    }

    /** What a coarse display shows with a nought too many changes by its own step. */
    @Test
    void isWhatTheReadingsTellWhereManyDiffer() {
        double[] readings_mm = new Random(4)
                .ints(500, -3, 3)
                .mapToDouble(count -> 0.01 * count)
                .toArray();
        assertEquals(0.01, Resolution.of(readings_mm, 0.001), 1e-9);
    }
}
