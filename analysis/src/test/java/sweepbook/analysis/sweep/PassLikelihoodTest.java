package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PassLikelihoodTest {
    private static final double STEP_mm = 0.001;

    /** Law: the gradient is the limit of differences, of an even hand and of an uneven one, whether it paused or not. */
    @ParameterizedTest
    @CsvSource({"1, false", "20, false", "1, true", "20, true"})
    void knowsItsGradient(int knots, boolean paused) {
        PassLikelihood likelihood =
                new PassLikelihood(pass(paused), new Rounding(STEP_mm, STEP_mm), PassLikelihood.Bend.UNKNOWN);
        double[] p = new double[PassLikelihood.SPEED + knots + (paused ? 2 : 0)];
        Arrays.fill(p, PassLikelihood.SPEED, PassLikelihood.SPEED + knots, Math.log(0.3));
        p[0] = 0.0003;
        p[1] = 0.05;
        p[PassLikelihood.P0] = 0.012;
        if (paused) {
            p[p.length - 2] = 0.016;
            p[p.length - 1] = 0.019;
        }
        double[] gradient = likelihood.at(p).gradient;
        for (int i = 0; i < p.length; i++) {
            double step = 1e-6;
            double[] more = p.clone();
            double[] less = p.clone();
            more[i] += step;
            less[i] -= step;
            double expected = (likelihood.at(more).value - likelihood.at(less).value) / (2 * step);
            // What a reading says is looked up between points close together.
            assertEquals(expected, gradient[i], 0.01 * Math.abs(expected) + 0.05, "parameter " + i);
        }
    }

    /** Over a round of 10 mm in two seconds, with a pause of half a second just past the crest. */
    private static PassReadings pass(boolean paused) {
        int n = 126;
        double[] time_s = new double[n];
        double[] reading_mm = new double[n];
        for (int i = 0; i < n; i++) {
            time_s[i] = i / 50.0;
            double moved_s = Math.min(time_s[i], Math.max(1.05, time_s[i] - 0.5));
            double s = 1.4 * (moved_s - 1);
            reading_mm[i] = STEP_mm * Math.rint(-s * s / 20 / STEP_mm);
        }
        CleanTrace trace = new CleanTrace(time_s, reading_mm, reading_mm, new boolean[n], STEP_mm, STEP_mm, 0.5);
        Pause pause = new Pause(1.05, 1.55, 0.02, 0.01, 0.04, Math.log(0.05));
        return PassReadings.of(trace, 0, n, n / 2, List.of(), paused ? Optional.of(pause) : Optional.empty());
    }
}
