package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Laws of what fits say for passes to cross a crest; readings count in steps of the display. */
class FitOddsTest {
    private static double calm(DoubleUnaryOperator way) {
        Random random = new Random(1);
        double[] time_s = new double[800];
        double[] readings = new double[time_s.length];
        for (int i = 0; i < time_s.length; i++) {
            time_s[i] = i / 20.0;
            double at = way.applyAsDouble(time_s[i] % 10) * (time_s[i] % 20 < 10 ? 1 : -1);
            readings[i] = Math.rint(-60 * at * at + 0.5 * random.nextGaussian());
        }
        CleanTrace trace = CleanTrace.of(time_s, readings, 1, 1);
        List<PassFit> fits = new PassFits(trace, new PassFinder(trace, Double.NaN)).fits();
        assertTrue(fits.size() >= 3, () -> fits.size() + " passes");
        return FitOdds.calm(fits);
    }

    @Test
    void anEvenHandMakesCrests() {
        assertTrue(calm(t -> t / 5 - 1) > 2);
    }

    /** Its clicks are hidden, so that the fits take it for the wildest of hands: that makes its turns no better crests. */
    @Test
    void aHandInClicksTellsNothing() {
        double calm = calm(t -> Math.floor(2.3 * t + Math.sin(3 * t)) / 11.5 - 1);
        assertTrue(Math.abs(calm) < 1, () -> "calm " + calm);
    }
}
