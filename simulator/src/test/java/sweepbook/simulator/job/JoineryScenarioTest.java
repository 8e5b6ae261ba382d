package sweepbook.simulator.job;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class JoineryScenarioTest {
    /**
     * Law: what the trade's arithmetic makes of true readings and shown positions is the true offset, but for the steps of the
     * display, the pins' radii and the drift.
     */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void trueReadingsAndShownPositionsGiveTheTrueOffsets(long seed) {
        for (VirtualJob job : List.of(JoineryScenario.of(seed), JoineryScenario.inInches(seed))) {
            for (SoughtOffset offset : job.offsets()) {
                List<Double> places_mm = new ArrayList<>();
                for (int touch = 0; touch < 2; touch++) {
                    VirtualTouch made = job.touch(offset.name(), touch);
                    double position_mm = job.machineUnit().toMm(Double.parseDouble(made.onCrest()));
                    double radius_mm =
                            switch (offset.touches().get(touch).feature()) {
                                case JoineryScenario.SPINDLE_PIN -> JoineryScenario.SPINDLE_PIN_MM;
                                case JoineryScenario.DRILL_PIN -> JoineryScenario.DRILL_PIN_MM;
                                default -> 0;
                            };
                    // The indicator stands on the table and pressing raises the reading.
                    places_mm.add(-position_mm + offset.direction() * (made.highSpot_mm() - radius_mm));
                }
                double difference_mm = places_mm.get(1) - places_mm.get(0);
                double measured_mm = offset.name().startsWith("swivel") ? -difference_mm / 2 : difference_mm;
                double tolerance_mm =
                        job.machineUnit().toMm(job.machineUnit().symbol().equals("mm") ? 0.001 : 0.0001);
                assertEquals(
                        job.trueOffset_mm(offset.name()),
                        measured_mm,
                        tolerance_mm + 0.002,
                        offset.name() + " seed " + seed + " in " + job.machineUnit());
            }
        }
    }

    /** Law: a touch ends within one click of zero, at rest, and the jog between the two shown positions is whole clicks. */
    @Test
    void theTouchEndsAtTheClickNextToZero() {
        VirtualJob job = JoineryScenario.of(11);
        for (SoughtOffset offset : job.offsets()) {
            for (int touch = 0; touch < 2; touch++) {
                VirtualTouch made = job.touch(offset.name(), touch);
                double jog_mm = Double.parseDouble(made.atTheEnd()) - Double.parseDouble(made.onCrest());
                assertTrue(Math.abs(made.zero_mm()) < 0.006, offset.name() + " zero " + made.zero_mm());
                assertEquals(Math.rint(jog_mm / 0.01), jog_mm / 0.01, 1e-6, offset.name());
                assertTrue(jog_mm * offset.direction() > 0.02, offset.name());
                double last_mm = made.trace().reading_mm(made.trace().size() - 1);
                assertEquals(made.zero_mm(), last_mm, 0.004, offset.name());
            }
        }
    }

    /** Law. */
    @Test
    void theSameSeedGivesTheSameBits() {
        VirtualTouch first = JoineryScenario.of(5).touch(JoineryScenario.SPINDLE_TO_DRILL, 0);
        VirtualTouch second = JoineryScenario.of(5).touch(JoineryScenario.SPINDLE_TO_DRILL, 0);
        assertArrayEquals(first.trace().times_s(), second.trace().times_s());
        assertArrayEquals(first.trace().readings_mm(), second.trace().readings_mm());
        assertEquals(first.atTheEnd(), second.atTheEnd());
    }

    /** Law: readings come at an even cadence over all touches and rests of a job. */
    @Test
    void nothingIsMissingBetweenTouches() {
        VirtualJob job = JoineryScenario.of(6);
        VirtualTouch first = job.touch(JoineryScenario.SWIVEL_TO_SPINDLE, 0);
        double last_s = first.trace().time_s(first.trace().size() - 1);
        double rest_s = job.standing().time_s();
        VirtualTouch second = job.touch(JoineryScenario.SWIVEL_TO_SPINDLE, 1);
        assertEquals(last_s + 0.04, rest_s, 1e-9);
        assertEquals(rest_s + 0.04, second.trace().time_s(0), 1e-9);
    }

    /** Law: touching the first feature again after the stand was bumped misses by the bump, and by the steps of the display. */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, -0.035})
    void aBumpedStandShowsAsMisclosure(double bump_mm) {
        VirtualJob job = JoineryScenario.of(8);
        double before_mm = place_mm(job.touch(JoineryScenario.SPINDLE_TO_DRILL, 0));
        job.touch(JoineryScenario.SPINDLE_TO_DRILL, 1);
        job.bumpStand(bump_mm);
        double after_mm = place_mm(job.touch(JoineryScenario.SPINDLE_TO_DRILL, 0));
        assertEquals(-bump_mm, after_mm - before_mm, 0.0015);
    }

    /** Pressed towards minus X: the surface's place but for a constant. */
    private static double place_mm(VirtualTouch touch) {
        return -Double.parseDouble(touch.onCrest()) - touch.highSpot_mm();
    }
}
