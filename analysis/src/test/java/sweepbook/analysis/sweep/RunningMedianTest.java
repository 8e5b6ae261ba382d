package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RunningMedianTest {
    /** Law: the median is the middle of the sorted values, of an even number the upper one. */
    @Test
    void isTheMiddleOfTheLastFive() {
        Random random = new Random(14);
        double[] values = random.ints(500, 0, 7).asDoubleStream().toArray();
        RunningMedian median = new RunningMedian();
        for (int i = 0; i < values.length; i++) {
            double[] window = Arrays.copyOfRange(values, Math.max(0, i - 4), i + 1);
            Arrays.sort(window);
            assertEquals(window[window.length / 2], median.add(values[i]), "value " + i + " of seed 14");
        }
    }
}
