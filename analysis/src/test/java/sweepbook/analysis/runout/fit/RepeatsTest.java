package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Simulated truth: a display that is read a little oftener than it shows a new value; rather too few repeats are told than too
 * many.
 */
class RepeatsTest {
    private static final double STEP_MM = 0.001;
    private static final int READINGS = 3000;

    @ParameterizedTest
    @CsvSource({"1, 0.5, 1", "1, 2, 1", "1, 0.05, 1", "1.3, 0.5, 1.15", "1.7, 0.5, 1.3", "1.7, 2, 1.5"})
    void tellsThatReadingsRepeat(double readingsAValue, double noise, double least) {
        Random random = new Random(7);
        double[] time = new double[READINGS];
        double[] angle = new double[READINGS];
        double[] reading = new double[READINGS];
        double shown = -1;
        for (int i = 0; i < READINGS; i++) {
            time[i] = 0.01 * i;
            angle[i] = 10 * Math.PI * i / READINGS;
            double taken = Math.floor(i / readingsAValue);
            if (taken != shown) {
                double steps =
                        60 * Math.cos(10 * Math.PI * taken * readingsAValue / READINGS) + noise * random.nextGaussian();
                reading[i] = Math.rint(steps) * STEP_MM;
            } else {
                reading[i] = reading[i - 1];
            }
            shown = taken;
        }
        Samples samples = new Samples(time, reading, 0, STEP_MM);
        TurnFit fit = TurnFit.atAngles(samples, new int[] {1, 2}, 1, angle, TurnFit.Detail.PLAIN);
        double told = Repeats.readingsAValue(samples, angle, fit);
        assertTrue(told >= least && told <= readingsAValue + 0.1, "seed 7: " + told);
    }
}
