package sweepbook.cli.proof;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class GeneralToolTest {
    /** Published: Savitzky and Golay, Analytical Chemistry 36 (1964) 1627, table I, quadratic and cubic; from memory. */
    @Test
    void smoothingWeightsAreThoseOf1964() {
        assertWeights(35, -3, 12, 17, 12, -3);
        assertWeights(21, -2, 3, 6, 7, 6, 3, -2);
        assertWeights(231, -21, 14, 39, 54, 59, 54, 39, 14, -21);
        assertWeights(429, -36, 9, 44, 69, 84, 89, 84, 69, 44, 9, -36);
    }

    private static void assertWeights(double norm, double... published) {
        double[] weights = GeneralTool.quadraticWeights(published.length / 2);
        for (int i = 0; i < weights.length; i++) {
            weights[i] *= norm;
        }
        assertArrayEquals(published, weights, 1e-10);
    }

    /** Law: on a noiseless parabola its vertex is found between the readings. */
    @Test
    void theParabolaFindsTheVertexBetweenReadings() {
        double[] readings = IntStream.range(0, 41)
                .mapToDouble(i -> 1 - 0.001 * (i - 20.3) * (i - 20.3))
                .toArray();
        assertEquals(1, GeneralTool.PARABOLA.highSpot_mm(readings), 1e-9);
    }

    /** Law: one spike moves the maximum and no median. */
    @Test
    void aSpikeMovesTheMaximumAndNoMedian() {
        double[] readings =
                IntStream.range(0, 41).mapToDouble(i -> i == 7 ? 5 : 1).toArray();
        assertEquals(5, GeneralTool.MAXIMUM.highSpot_mm(readings));
        assertEquals(1, GeneralTool.MEDIAN_MAXIMUM.highSpot_mm(readings));
    }

    /** Law: a parabola that has its top beyond the readings through which it goes, or none, says nothing of theirs. */
    @Test
    void aParabolaWithoutATopAmongItsReadingsIsNotTaken() {
        double[] readings = IntStream.range(0, 41)
                .mapToDouble(i -> Math.abs(i - 20) <= 1 ? 1.1 : 1)
                .toArray();
        for (double spike = 0.9; spike < 1.5; spike += 1e-5) {
            readings[24] = spike;
            double top = GeneralTool.PARABOLA.highSpot_mm(readings);
            assertTrue(top < Math.max(1.2, spike + 0.1), "with a spike of " + spike + " the top is " + top);
        }
    }
}
