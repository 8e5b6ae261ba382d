package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.technician.Crossing;

class SweepTrialsTest {
    /** Law. */
    @ParameterizedTest
    @EnumSource(SweepKind.class)
    void theSameSeedGivesTheSameBits(SweepKind kind) {
        SweepTrial first = SweepTrials.of(kind, 7);
        SweepTrial second = SweepTrials.of(kind, 7);
        assertArrayEquals(first.trace().times_s(), second.trace().times_s());
        assertArrayEquals(first.trace().readings_mm(), second.trace().readings_mm());
        assertEquals(first.crest_mm(), second.crest_mm());
        assertEquals(first.crestBound_mm(), second.crestBound_mm());
    }

    /** Law: between jogs nothing but clicks lies between crest and zero, to the rounding of half a click. */
    @ParameterizedTest
    @EnumSource(
            value = SweepKind.class,
            names = {"DRIFT", "CREEP", "ROCKING_STAND", "EVERYTHING"},
            mode = EnumSource.Mode.EXCLUDE)
    void theZeroIsTheCrestDwellPlusTheClicks(SweepKind kind) {
        for (long seed = 0; seed < 20; seed++) {
            SweepTrial trial = SweepTrials.of(kind, seed);
            double click_mm = trial.trace().unit().symbol().equals("mm") ? 0.01 : 0.0254;
            double expected_mm =
                    trial.crest_mm() - trial.crestMiss_mm() + trial.pressingSign() * trial.clicks() * click_mm;
            assertEquals(expected_mm, trial.zero_mm(), 1e-9, kind + " seed " + seed);
            assertTrue(Math.abs(trial.zero_mm()) < 0.6 * click_mm, kind + " seed " + seed);
        }
    }

    /**
     * Simulated truth: least squares that is told the true motion, up to an instant and a speed for every pass, reaches the bound
     * and not less, so crest and bound belong to what was recorded. Root mean square over the seeds within 4 standard deviations of 1.
     */
    @ParameterizedTest
    @EnumSource(
            value = SweepKind.class,
            names = {"CLEAN", "ONE_PASS", "NOISE_2Q", "UNEVEN_HAND", "FREE_START", "CLICK_WISE"})
    void leastSquaresThatKnowsTheMotionReachesTheBound(SweepKind kind) {
        int seeds = 60;
        double sum = 0;
        for (long seed = 0; seed < seeds; seed++) {
            SweepTrial trial = SweepTrials.of(kind, seed);
            sum += Math.pow((crestByLeastSquares(trial) - trial.crest_mm()) / trial.crestBound_mm(), 2);
        }
        assertEquals(1, Math.sqrt(sum / seeds), 4 * Math.sqrt(2.0 / seeds) / 2, kind + ", " + seeds + " seeds from 0");
    }

    private static double crestByLeastSquares(SweepTrial trial) {
        // The same draws in the same order give the same motion again.
        Random random = SweepTrials.random(trial.kind(), trial.seed());
        SweepSetUp setUp = SweepSetUp.of(trial.kind(), random);
        SweepScript script = SweepScript.perform(trial.kind(), setUp, random);
        List<double[]> rows = new ArrayList<>();
        List<Double> heights = new ArrayList<>();
        int passes = trial.crossings().size();
        for (int pass = 0; pass < passes; pass++) {
            Crossing crossing = trial.crossings().get(pass);
            for (int i = 0; i < trial.trace().size(); i++) {
                double time_s = trial.trace().time_s(i);
                Pose pose = script.machine().at(time_s);
                if (time_s >= crossing.from_s() && time_s <= crossing.to_s() && setUp.press_mm(pose) > 0) {
                    double s_mm = pose.y_mm();
                    double slope = s_mm / Math.sqrt(setUp.reach_mm() * setUp.reach_mm() - s_mm * s_mm);
                    double[] row = new double[2 * passes];
                    row[2 * pass] = slope;
                    row[2 * pass + 1] = slope * s_mm;
                    rows.add(row);
                    heights.add(trial.trace().reading_mm(i) + trial.pressingSign() * setUp.drop_mm(s_mm));
                }
            }
        }
        OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
        fit.newSampleData(heights.stream().mapToDouble(Double::doubleValue).toArray(), rows.toArray(new double[0][]));
        return fit.estimateRegressionParameters()[0];
    }
}
