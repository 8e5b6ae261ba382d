package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ClickChainTest {
    private static final double STEP_mm = 0.002;
    private static final double NOISE_mm = 0.001;
    private static final double CLICK = 0.02;
    private static final double OFFSET = 0.3 * CLICK;
    private static final double BEND = 0.04;
    private final Random random = new Random(21);
    private final PassReadings pass = pass();
    private final Rounding rounding = new Rounding(NOISE_mm, STEP_mm);
    private final ClickChain chain = new ClickChain(pass, rounding, 4);

    /** Law: the derivatives are the limits of differences (Fisher's identity of the expected and the whole score). */
    @Test
    void knowsItsDerivatives() {
        double[] p = {0.0003, 0.05, OFFSET + 0.001, CLICK - 1e-5};
        double[] gradient = chain.at(p).gradient();
        double[] step = {1e-6, 1e-4, 1e-6, 1e-7};
        for (int a = 0; a < p.length; a++) {
            double[] more = p.clone();
            double[] less = p.clone();
            more[a] += step[a];
            less[a] -= step[a];
            double slope = (chain.at(more).log() - chain.at(less).log()) / (2 * step[a]);
            assertEquals(slope, gradient[a], 0.01 * Math.abs(slope), "parameter " + a + ", seed 21");
        }
    }

    /** Where levels are far apart the hidden clicks are no secret. */
    @Test
    void countsTheClicksOnTheFlanks() {
        double[] counts = chain.at(new double[] {0, BEND, OFFSET, CLICK}).counts();
        for (int i = 0; i < counts.length; i++) {
            int click = (int) Math.floor(pass.at_s(i) / 0.25) - 30;
            if (Math.abs(click) > 12) {
                assertEquals(click, counts[i], 0.05, "at " + pass.at_s(i) + " s, seed 21");
            }
        }
    }

    /** A fit that begins one click off across the crest comes back to the true crest within what it claims. */
    @Test
    void triesOtherCounts() {
        double[] off = new double[pass.size()];
        for (int i = 0; i < off.length; i++) {
            int click = (int) Math.floor(pass.at_s(i) / 0.25) - 30;
            off[i] = click > 0 ? click + 1 : click;
        }
        double[] even = Hand.evenOnly();
        PassFit wrong = PassFit.of(pass.counted(off), rounding, PassLikelihood.Bend.UNKNOWN, even)
                .orElseThrow();
        PassFit right = ClickModes.again(wrong, rounding).orElseThrow();
        assertTrue(Math.abs(wrong.crest_mm()) > 5 * wrong.stdU_mm(), "the start is no test: " + wrong.crest_mm());
        assertTrue(
                Math.abs(right.crest_mm()) < 3 * right.stdU_mm() && right.stdU_mm() < 2 * wrong.stdU_mm(),
                right.crest_mm() + " +- " + right.stdU_mm() + ", seed 21");
    }

    /** Sixty clicks of a quarter of a second each over a crest at 0, twenty readings a second. */
    private PassReadings pass() {
        int n = 300;
        double[] time_s = new double[n];
        double[] reading_mm = new double[n];
        for (int i = 0; i < n; i++) {
            time_s[i] = 0.05 * i + 0.01;
            double u = OFFSET + CLICK * (Math.floor(time_s[i] / 0.25) - 30);
            double drop_mm = 2 * u * u / (1 + Math.sqrt(1 - 4 * BEND * u * u));
            reading_mm[i] = Math.rint((NOISE_mm * random.nextGaussian() - drop_mm) / STEP_mm) * STEP_mm;
        }
        CleanTrace trace = CleanTrace.of(time_s, reading_mm, 1, STEP_mm);
        return PassReadings.of(trace, 0, n, n / 2, List.of(), Optional.empty());
    }
}
