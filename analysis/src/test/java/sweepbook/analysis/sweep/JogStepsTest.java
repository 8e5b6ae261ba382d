package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
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
        return new JogSteps(levels, JogSteps.sizes(told_mm, q_mm), stop, clicks * step_mm, noise_mm, q_mm).clicks();
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

    /** Simulated truth: who overshoots and jogs back has given all of the clicks, though noise is a quarter of one. */
    @Test
    void clicksBackAndForthAreAllCounted() {
        int[] walk = {1, 2, 3, 4, 5, 6, 7, 8, 7, 6};
        for (long seed = 0; seed < 50; seed++) {
            Random random = new Random(seed);
            double noise_mm = 0.0025;
            List<Still> levels = new ArrayList<>();
            for (int i = 0; i < walk.length - 1; i++) {
                double level_mm = 0.01 * walk[i] + noise_mm / Math.sqrt(20) * random.nextGaussian();
                levels.add(new Still(20 * i, 20 * i + 20, level_mm));
            }
            Estimate stop = new Estimate(0, 0.0005, 40);
            JogClicks found =
                    new JogSteps(levels, JogSteps.sizes(Double.NaN, 0.002), stop, 0.06, noise_mm, 0.002).clicks();
            assertEquals(10, found.count(), "seed " + seed);
            assertEquals(6, found.net(), "seed " + seed);
        }
    }

    /** Law: ten clicks at once of which none is seen are one that is ten times as large. */
    @ParameterizedTest
    @CsvSource({"0.1, 0.001", "0.254, 0.0127"})
    void oneMoveIsOneClick(double click_mm, double q_mm) {
        Estimate stop = new Estimate(0, q_mm / 10, 40);
        List<JogSteps.Size> sizes = JogSteps.sizes(Double.NaN, q_mm);
        JogClicks found = new JogSteps(List.of(), sizes, stop, click_mm, q_mm / 2, q_mm).clicks();
        assertEquals(1, found.count());
        assertEquals(click_mm, found.step_mm());
    }

    /** Law: levels on whole clicks are likelier than levels anywhere. */
    @Test
    void whatDidNotMoveInClicksIsNotExplainedByThem() {
        double[] approach_mm = {0.0137, 0.0243, 0.0331, 0.0378, 0.0423};
        double[] jog_mm = {0.0101, 0.0199, 0.0302, 0.0399, 0.0500};
        assertTrue(logDensity(jog_mm) > logDensity(approach_mm) + 5);
    }

    private static double logDensity(double[] level_mm) {
        List<Still> levels = new ArrayList<>();
        for (int i = 0; i < level_mm.length - 1; i++) {
            levels.add(new Still(20 * i, 20 * i + 20, level_mm[i]));
        }
        Estimate stop = new Estimate(0, 0.0001, 40);
        double zero_mm = level_mm[level_mm.length - 1];
        return new JogSteps(levels, JogSteps.sizes(0.01, 0.001), stop, zero_mm, 0.0005, 0.001).logDensity();
    }
}
