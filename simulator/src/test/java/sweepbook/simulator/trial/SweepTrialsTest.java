package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

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
}
