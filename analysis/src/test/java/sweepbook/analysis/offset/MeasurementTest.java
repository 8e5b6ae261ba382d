package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.offset.Alignment.Station;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.MonteCarlo;

/** Laws of the measurements beyond their value: what they warn of, and what they refuse. */
class MeasurementTest {
    private static final Approach APPROACH = new Approach(Direction.PLUS, Pressing.RAISES, Stand.ON_TABLE);
    private static final Feature BLADE = new Feature.Flat("blade");
    private static final TouchConditions CLEAN = new TouchConditions(
            new IndicatorLimits(0, 0, 0, 0, Estimate.exact(1), Estimate.exact(0)),
            new MachineLimits(0, 0),
            new Surroundings(0, Optional.empty()));

    private static Touch touch(double position_mm, double reading_mm, double time_s) {
        return new Touch(BLADE, APPROACH, position_mm, new Estimate(reading_mm, 0.0005, 20), time_s);
    }

    private static Alignment line(double... reading_mm) {
        return new Alignment(IntStream.range(0, reading_mm.length)
                .mapToObj(i -> new Station(50 * i, "along", touch(10, reading_mm[i], 30 * i)))
                .toList());
    }

    @Test
    void aBumpOnTheLineIsToldAndWidensTheUncertainty() {
        Alignment straight = line(0, 0.001, 0.002, 0.003, 0.004, 0.005, 0.006);
        Alignment bumped = line(0, 0.001, 0.002, 0.023, 0.004, 0.005, 0.006);
        assertEquals(List.of(), straight.warnings(CLEAN));
        assertTrue(bumped.warnings(CLEAN).get(0).contains("touch 4 the most"), bumped.warnings(CLEAN)::toString);
        assertTrue(bumped.slope(CLEAN).combined().u95()
                > 5 * straight.slope(CLEAN).combined().u95());
        assertEquals(0.001 / 50, straight.slope(CLEAN).value(), 1e-12);
        assertEquals(0.02, straight.over(1000, CLEAN).value(), 1e-9);
        assertEquals(0.02, bumped.straightness(CLEAN).orElseThrow().value(), 0.004);
    }

    @Test
    void repeatsThatWanderWidenTheUncertainty() {
        List<Touch> first = new ArrayList<>();
        List<Touch> calm = new ArrayList<>();
        List<Touch> restless = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            first.add(touch(10, 0, 100 * i));
            calm.add(touch(20, 0.0004 * (i % 2), 100 * i + 50));
            restless.add(touch(20, 0.01 * i, 100 * i + 50));
        }
        TouchPair steady = new TouchPair(first, calm);
        TouchPair wandering = new TouchPair(first, restless);
        assertEquals(List.of(), steady.warnings(CLEAN));
        assertTrue(wandering.warnings(CLEAN).get(0).contains("repeats disagree"));
        assertEquals(-10 + 0.0002, steady.offset(CLEAN).value(), 1e-12);
        // Mean of four with a scatter of 0.0129: 0.0065 each way, on three degrees of freedom.
        assertEquals(0.0065, wandering.offset(CLEAN).combined().stdU(), 0.0002);
        assertEquals(3, wandering.offset(CLEAN).combined().degreesOfFreedom(), 0.2);
    }

    @Test
    void repeatsThatFollowADriftAreTold() {
        List<Touch> first = new ArrayList<>();
        List<Touch> creeping = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            first.add(touch(10, 0, 100 * i));
            creeping.add(touch(20, 0.0001 * i, 100 * i + 50));
        }
        List<String> warnings = new TouchPair(first, creeping).warnings(CLEAN);
        assertEquals(1, warnings.size(), warnings::toString);
        assertTrue(warnings.get(0).contains("something drifts"), warnings::toString);
        assertEquals(List.of(), new TouchPair(first, first).warnings(CLEAN));
    }

    @Test
    void aTiltWithinItsUncertaintyHasNoDirection() {
        List<Tram.AtAngle> level = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            level.add(new Tram.AtAngle(90 * i, new Estimate(0.0002 * (i % 2), 0.0005, 20), 10 * i));
        }
        Tram tram = new Tram(level, 100, Pressing.RAISES);
        assertFalse(tram.direction(CLEAN).isFound());
        assertThrows(IllegalArgumentException.class, () -> new Tram(level, 0, Pressing.RAISES));
    }

    @Test
    void aPartialTurnKnowsTheAxisLessWellThanAWholeOne() {
        double[] u95 = new double[2];
        for (int which = 0; which < 2; which++) {
            double step_deg = which == 0 ? 60 : 8;
            u95[which] = new TurnedTouches(IntStream.range(0, 6)
                            .mapToObj(i -> new TurnedTouches.AtAngle(i * step_deg, touch(10, 0.1, 60 * i)))
                            .toList())
                    .eccentricity(CLEAN)
                    .combined()
                    .u95();
        }
        assertTrue(u95[1] > 5 * u95[0], u95[0] + " and " + u95[1]);
    }

    @Test
    void aSlopeThatTheMachineDoesNotKnowIsTold() {
        Approach approach = new Approach(Direction.MINUS, Pressing.RAISES, Stand.ON_TABLE);
        assertTrue(scale(-1.02, approach).warnings().get(0).contains("tilted by 11.4 degrees"));
        assertTrue(scale(-0.98, approach).warnings().get(0).contains("less than the machine"));
        assertTrue(scale(1, approach).warnings().get(0).contains("stated wrongly"));
        assertTrue(scale(-1, approach).warnings().get(0).contains("one way only"));
        assertEquals(0, scale(-0.98, approach).tilt_deg());
    }

    private static ScaleCheck scale(double slope, Approach approach) {
        return new ScaleCheck(
                IntStream.range(0, 5)
                        .mapToObj(i -> new ScaleCheck.Step(
                                300 + 0.1 * i, slope * 0.1 * i + 0.0001 * (i % 2), ScaleCheck.Motion.IN))
                        .toList(),
                approach);
    }

    @Test
    void aCalibrationTableCorrectsBetweenItsPoints_andRefusesBeyond() {
        CalibrationTable table = new CalibrationTable(List.of(
                new CalibrationTable.Point(1, 0.004),
                new CalibrationTable.Point(0, 0),
                new CalibrationTable.Point(2, -0.002)));
        assertEquals(0.498, table.correct(Estimate.exact(0.5)).value(), 1e-12);
        assertEquals(1.499, table.correct(Estimate.exact(1.5)).value(), 1e-12);
        assertEquals(0, table.correct(Estimate.exact(0)).value());
        assertEquals(0.001 * 1.006, table.correct(new Estimate(1.5, 0.001, 9)).stdU(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> table.correct(Estimate.exact(2.1)));
        assertThrows(
                IllegalArgumentException.class,
                () -> new CalibrationTable(
                        List.of(new CalibrationTable.Point(1, 0), new CalibrationTable.Point(1, 1))));
    }

    @Test
    void theTurningOfNamedAxesIsRightHanded() {
        assertEquals(Turning.TOWARDS_MEASURED, Turning.of('Y', 'Z', 'A'));
        assertEquals(Turning.AWAY_FROM_MEASURED, Turning.of('Z', 'Y', 'A'));
        assertEquals(Turning.TOWARDS_MEASURED, Turning.of('Z', 'X', 'B'));
        assertEquals(Turning.TOWARDS_MEASURED, Turning.of('X', 'Y', 'C'));
        assertEquals(Turning.AWAY_FROM_MEASURED, Turning.of('Y', 'X', 'C'));
        assertThrows(IllegalArgumentException.class, () -> Turning.of('X', 'Z', 'C'));
        assertThrows(IllegalArgumentException.class, () -> Turning.of('X', 'Y', 'U'));
    }

    @Test
    void whatDoesNotBelongTogetherIsRefused() {
        Touch early = touch(10, 0, 0);
        Touch middle = new Touch(new Feature.Flat("nose"), APPROACH, 20, Estimate.exact(0), 50);
        Touch late = touch(10, 0, 100);
        assertThrows(IllegalArgumentException.class, () -> new BracketedPair(early, late, middle));
        assertThrows(IllegalArgumentException.class, () -> new BracketedPair(late, middle, early));
        assertThrows(IllegalArgumentException.class, () -> new TouchPair(List.of(early, late), List.of(middle)));
        assertThrows(IllegalArgumentException.class, () -> line(0));
        assertThrows(
                IllegalArgumentException.class,
                () -> new TurnedTouches(List.of(
                        new TurnedTouches.AtAngle(0, early),
                        new TurnedTouches.AtAngle(90, middle),
                        new TurnedTouches.AtAngle(180, late))));
        assertThrows(IllegalArgumentException.class, () -> new Reversal(early, middle));
        assertThrows(IllegalArgumentException.class, () -> LeverContact.readingScale(Estimate.exact(90)));
    }

    /** Law: drawing every line's own distribution (JCGM 101) gives the interval that the budget states. */
    @Test
    void aDrawnBudgetCoversWhatTheSummedOneSays() {
        TouchConditions conditions = new TouchConditions(
                new IndicatorLimits(0.003, 0.2, 0.001, 2, new Estimate(1, 0.001, 30), Estimate.exact(0)),
                new MachineLimits(0.001, 0.001),
                new Surroundings(1e-5, Optional.empty()));
        Budget offset = new TouchPair(touch(10, 0, 0), touch(60, 0.02, 200)).offset(conditions);
        MonteCarlo drawn = MonteCarlo.of(offset, 300_000, 8);
        double u95_mm = (drawn.upper(0.95) - drawn.lower(0.95)) / 2;
        assertEquals(offset.combined().u95(), u95_mm, 0.03 * u95_mm, "seed 8");
        assertEquals(offset.combined().stdU(), drawn.stdU(), 0.03 * drawn.stdU(), "seed 8");
        assertEquals(offset.value(), drawn.mean(), 0.0001, "seed 8");
    }
}
