package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.uncertainty.Estimate;

/** Simulated truth: what is read after the last pass, at 20 readings a second; lengths in steps of a thousandth of a millimetre. */
class AfterPassesTest {
    private static final double STEP_mm = 0.001;
    private static final Told TOLD =
            new Told(Optional.empty(), new LengthWords(LengthUnit.MM, STEP_mm), Double.NaN, Contour.ROUND, Double.NaN);

    /** Stands on each level for so many seconds. */
    private static CleanTrace stands(double noise, double[] level, double[] seconds) {
        Random random = new Random(1);
        double[] steps = IntStream.range(0, level.length)
                .boxed()
                .flatMapToDouble(i ->
                        IntStream.range(0, (int) Math.round(20 * seconds[i])).mapToDouble(k -> level[i]))
                .toArray();
        double[] time_s = new double[steps.length];
        double[] reading_mm = new double[steps.length];
        for (int i = 0; i < steps.length; i++) {
            time_s[i] = i / 20.0;
            reading_mm[i] = STEP_mm * Math.rint(steps[i] + noise * random.nextGaussian());
        }
        return CleanTrace.of(time_s, reading_mm, 1, STEP_mm);
    }

    /** An uneven hand and late times make the passes five times noisier than the rest, whose level lies near an edge. */
    @Test
    void aRestIsAsNoisyAsRestsAre() {
        CleanTrace trace = stands(0.2, new double[] {0.36, 10.64, 20.36}, new double[] {4, 1, 30});
        AfterPasses after = new AfterPasses(trace, TOLD, 0, STEP_mm);
        Estimate level = after.stableZero().asOptional().orElseThrow().level();
        assertEquals(20.36, level.value() / STEP_mm, 0.06);
    }

    /** Clicks across come nearer to the crest by about a click of the jog each; the stop is where the person stood for long. */
    @Test
    void anApproachByClicksIsNoJog() {
        double[] levels = {
            83, 99.1, 114.3, 129.1, 141.9, 152.8, 165.1, 174.8, 184.4, 194.7, 205.1, 214, 224.7, 234.9, 244.8, 254.4,
            264.6, 254.8
        };
        double[] seconds = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1.8, 2, 6, 1.5, 1, 1.4, 1.6, 1.2, 2.9};
        CleanTrace trace = stands(0.3, levels, seconds);
        AfterPasses after = new AfterPasses(trace, TOLD, 0, 0.3 * STEP_mm);
        List<JogSteps.Size> sizes = JogSteps.sizes(Double.NaN, STEP_mm);
        Estimate crest = new Estimate(214.2 * STEP_mm, 0.1 * STEP_mm, 40);
        Still stop = new StopChoice(after, sizes, crest, 0.04).likeliest().orElseThrow();
        assertEquals(214, stop.level_mm() / STEP_mm, 1);
    }
}
