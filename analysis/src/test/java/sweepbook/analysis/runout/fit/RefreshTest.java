package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RefreshTest {
    private static final double STEP_MM = 0.001;

    /** A part of so many steps eccentricity, as shown by a display that takes a new value every so many readings. */
    private static double[] shown(int every, double steps, double noise, int readings, int aTurn) {
        Random random = new Random(every);
        double[] r = new double[readings];
        for (int i = 0; i < readings; i++) {
            double v = steps * Math.cos(2 * Math.PI * i / aTurn) + noise * random.nextGaussian();
            r[i] = i % every == 0 ? Math.rint(v) * STEP_MM : r[i - 1];
        }
        return r;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 5, 12})
    void tellsHowOftenTheDisplayShowsANewValue(int every) {
        assertEquals(every, Refresh.readings(shown(every, 40, 0.5, 2000, 300), STEP_MM), "seed " + every);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 5, 12})
    void tellsItOfAPartThatMovesByLessThanAStepFromOneToTheNext(int every) {
        assertEquals(every, Refresh.readings(shown(every, 12, 0.1, 4000, 1000), STEP_MM), "seed " + every);
    }

    /** A reading that creeps stands still between its steps too. */
    @Test
    void aSlowTurningIsNoSlowDisplay() {
        assertEquals(1, Refresh.readings(shown(1, 20, 0, 2000, 1000), STEP_MM));
        assertEquals(1, Refresh.readings(shown(1, 3, 0.05, 2000, 300), STEP_MM));
    }

    @Test
    void onlyTheFirstOfEachRepeatIsFresh() {
        double[] r = {1, 1, 4, 4, 4, 4, 9, 9, 2};
        assertArrayEquals(
                new boolean[] {false, false, true, false, true, false, true, false, true}, Refresh.fresh(r, 2));
    }

    /** A display out of time with the readings shows a value one reading longer now and then; that is no new value. */
    @Test
    void aLongerRepeatIsNoNewValue() {
        double[] r = {1, 1, 4, 4, 4, 9, 9, 2, 2, 2, 3};
        assertArrayEquals(
                new boolean[] {false, false, true, false, false, true, false, true, false, false, true},
                Refresh.fresh(r, 2));
    }
}
