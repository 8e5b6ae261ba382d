package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.analysis.uncertainty.Estimate;

class JogStepsTest {
    /** The clicks of a jog of so many steps, each level known from six readings, the stop off by what its uncertainty allows. */
    private static JogClicks decoded(
            int clicks, double step_mm, double told_mm, double q_mm, double noise_mm, long seed) {
        Random random = new Random(seed);
        List<Still> levels = new ArrayList<>();
        for (int k = 1; k < clicks; k++) {
            levels.add(new Still(6 * k, 6 * k + 6, k * step_mm + noise_mm / Math.sqrt(6) * random.nextGaussian()));
        }
        double u_mm = noise_mm / 3;
        Estimate stop = new Estimate(u_mm * random.nextGaussian(), u_mm, 10);
        return new JogSteps(levels, JogSteps.sizes(told_mm, q_mm), stop, clicks * step_mm, noise_mm).clicks();
    }

    /** Simulated truth. */
    @ParameterizedTest
    @CsvSource({"7, 0.01, NaN, 0.001", "7, 0.0254, NaN, 0.0127", "12, 0.0254, NaN, 0.00254", "3, 0.01, NaN, 0.002"})
    void theStepIsThatOnWhichTheLevelsLie(int clicks, double step_mm, double told_mm, double q_mm) {
        for (long seed = 0; seed < 50; seed++) {
            JogClicks found = decoded(clicks, step_mm, told_mm, q_mm, 0.08 * step_mm, seed);
            assertEquals(step_mm, found.step_mm(), "seed " + seed);
            assertEquals(clicks, found.count(), "seed " + seed);
        }
    }

    /** Law: what the plan tells is not looked for. */
    @ParameterizedTest
    @CsvSource({"8, 0.005, 0.005, 0.001", "5, 0.02, 0.02, 0.01"})
    void aStepThatIsToldIsTaken(int clicks, double step_mm, double told_mm, double q_mm) {
        for (long seed = 0; seed < 50; seed++) {
            JogClicks found = decoded(clicks, step_mm, told_mm, q_mm, 0.08 * step_mm, seed);
            assertEquals(told_mm, found.step_mm(), "seed " + seed);
            assertEquals(clicks, found.count(), "seed " + seed);
        }
    }
}
