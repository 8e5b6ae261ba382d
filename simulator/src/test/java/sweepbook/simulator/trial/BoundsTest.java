package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
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

    private static final TurnedPart OVAL = new TurnedPart(
            0.02, 70, 20, List.of(new Harmonic(2, 0.004, 30), new Harmonic(3, 0, 0), new Harmonic(7, 0, 0)));

    private static double ovalBound_mm(int stations, int readings, int unknowns, double unknown_deg) {
        RoundnessBound bound = new RoundnessBound(OVAL, 0.25e-6, unknowns);
        for (int i = 0; i < readings; i++) {
            double[] turned_deg = new double[unknowns];
            Arrays.fill(turned_deg, unknown_deg * Math.cos(Math.toRadians(720.0 * i / stations)));
            bound.reading(i, 360.0 * i / stations, turned_deg);
        }
        return bound.stdU_mm();
    }

    /**
     * Law: many known angles tell each part of an undulation with variance 2 sigma^2 / n, and an oval's top and bottom are a
     * quarter apart: 2 (cos a, sin a) of the second, which counts 4; of the third |1 - i^3|^2 = 2, of the seventh 2.
     */
    @Test
    void knownAnglesTellAnOvalByItsTopAndBottom() {
        int n = 36_000;
        assertEquals(Math.sqrt(8 * 2 * 0.25e-6 / n), ovalBound_mm(360, n, 0, 0), 1e-8);
    }

    /** Law: at nine stations seven undulations pass for two. */
    @Test
    void nineStationsCannotTellSevenUndulationsFromTwo() {
        assertEquals(Double.POSITIVE_INFINITY, ovalBound_mm(9, 360, 0, 0));
        assertTrue(ovalBound_mm(16, 360, 0, 0) < 1e-3);
    }

    /** Law: a motion that wanders hides form, the more the further it may. */
    @Test
    void anUnknownMotionHidesForm() {
        double known_mm = ovalBound_mm(360, 3600, 1, 0);
        double little_mm = ovalBound_mm(360, 3600, 1, 1);
        double much_mm = ovalBound_mm(360, 3600, 1, 5);
        assertTrue(known_mm < little_mm && little_mm < much_mm, known_mm + ", " + little_mm + ", " + much_mm);
    }
}
