package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The bounds against what least squares and the theory of rounding say. */
class BoundsTest {
    /**
     * Law: readings evenly over a parabola's top, symmetric, tell its height with 9/4 of the variance of a mean, for 1 and s^2 are
     * correlated: n / (1 - (1/3)^2 / (1/5)) = 9/4 n.
     */
    @Test
    void anEvenPassTellsTheCrestWithNineQuartersOfTheVarianceOfAMean() {
        int n = 20_001;
        CrestBound bound = new CrestBound(1000, 0.04);
        for (int i = 0; i < n; i++) {
            bound.reading(2.0 * i / (n - 1) - 1);
        }
        bound.endOfPass();
        assertEquals(Math.sqrt(0.04 * 9 / 4 / n), bound.stdU_mm(), 1e-6);
    }

    /** Law: equal passes tell as much more as there are of them. */
    @Test
    void fourEqualPassesHalveTheBound() {
        CrestBound one = new CrestBound(8, 1e-6);
        CrestBound four = new CrestBound(8, 1e-6);
        pass(one);
        for (int i = 0; i < 4; i++) {
            pass(four);
        }
        assertEquals(one.stdU_mm() / 2, four.stdU_mm(), 1e-12);
    }

    private static void pass(CrestBound bound) {
        for (double s_mm = -1.3; s_mm < 1.1; s_mm += 0.07) {
            bound.reading(s_mm);
        }
        bound.endOfPass();
    }

    /** Published: a display that stands on one digit tells its level to q / sqrt 12 (JCGM 100:2008, F.2.2.1). */
    @Test
    void aNeedleThatStandsOnOneDigitTellsAStepOverRootTwelve() {
        double[] reading_mm = new double[200];
        Arrays.fill(reading_mm, 0.123);
        double bound_mm = LevelBound.stdU_mm(reading_mm, new double[200], 1e-6, 0.001);
        // The bound is found on a grid of 200 points a step.
        assertEquals(0.001 / Math.sqrt(12), bound_mm, 0.005 * bound_mm);
    }

    /** Law: where the noise is above the step, rounding only adds q^2 / 12 to its variance. */
    @Test
    void noiseAboveTheStepIsAveragedAway() {
        Random random = new Random(4);
        double[] reading_mm = new double[300];
        for (int i = 0; i < reading_mm.length; i++) {
            reading_mm[i] = Math.rint((0.5 + 1.5 * random.nextGaussian()) / 1.0);
        }
        double bound_mm = LevelBound.stdU_mm(reading_mm, new double[300], 1.5, 1.0);
        assertEquals(Math.sqrt((2.25 + 1.0 / 12) / 300), bound_mm, 0.01 * bound_mm);
    }

    /** Law: angles evenly over whole turns tell the eccentricity to sqrt(2 variance / n). */
    @Test
    void wholeTurnsTellTheEccentricityToRootTwoOverN() {
        EccentricityBound bound = new EccentricityBound(33, 0.25);
        for (int i = 0; i < 360; i++) {
            bound.reading(i);
        }
        assertEquals(Math.sqrt(2 * 0.25 / 360), bound.stdU_mm(), 1e-12);
    }
}
