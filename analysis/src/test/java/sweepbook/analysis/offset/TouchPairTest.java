package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;

class TouchPairTest {
    private static final double INF = Double.POSITIVE_INFINITY;
    private static final Approach PRESS_PLUS = new Approach(Direction.PLUS, Pressing.RAISES, Stand.ON_TABLE);

    private static Touch touch(String name, Approach approach, double position_mm, Estimate reading, double time_s) {
        return new Touch(new Feature.Flat(name), approach, position_mm, reading, time_s);
    }

    private static final Touch FIRST = touch("one", PRESS_PLUS, 100, new Estimate(0.010, 0.0004, 8), 0);
    private static final Touch SECOND = touch("two", PRESS_PLUS, 150, new Estimate(0.030, 0.0003, 12), 200);

    private static TouchConditions with(IndicatorLimits indicator) {
        return new TouchConditions(indicator, new MachineLimits(0, 0), new Surroundings(0, Optional.empty()));
    }

    private static IndicatorLimits indicator(double mpe_mm, double independentAfter_mm) {
        return new IndicatorLimits(mpe_mm, independentAfter_mm, 0, 0, Estimate.exact(1), Estimate.exact(0));
    }

    /** Law: the lines by hand, for one set-up with everything stated. */
    @Test
    void everyStatedSourceStandsInTheBudgetOnce() {
        TouchConditions conditions = new TouchConditions(
                new IndicatorLimits(0.004, 0.1, 0.002, 3, new Estimate(1.001, 0.0005, INF), Estimate.exact(0)),
                new MachineLimits(0.001, 0.003),
                new Surroundings(1e-5, Optional.empty()));
        Budget offset = new TouchPair(FIRST, SECOND).offset(conditions);
        assertEquals(-50 + 1.001 * 0.020, offset.value(), 1e-12);
        double tilt_rad = 3 * Math.PI / 180;
        double[] contributions = {
            1.001 * 0.0004,
            1.001 * 0.0003,
            0.004 / Math.sqrt(3) * Math.sqrt(2 * (1 - 0.8)),
            0.001 / Math.sqrt(3) * Math.sqrt(2),
            0.0005 / Math.sqrt(3) * Math.sqrt(2),
            0.0015 / Math.sqrt(3) * Math.sqrt(2),
            1e-5 * 200 / Math.sqrt(3),
            0.020 * 0.0005,
            0.020 * tilt_rad * tilt_rad / Math.sqrt(20),
        };
        assertEquals(contributions.length, offset.lines().size());
        double variance = 0;
        for (int i = 0; i < contributions.length; i++) {
            assertEquals(
                    contributions[i],
                    offset.lines().get(i).contribution(),
                    1e-12,
                    offset.lines().get(i).source());
            variance += contributions[i] * contributions[i];
        }
        assertEquals(Math.sqrt(variance), offset.combined().stdU(), 1e-12);
        assertEquals(List.of(), new TouchPair(FIRST, SECOND).warnings(conditions));
    }

    @Test
    void theBudgetIsListedWithItsLargestSourceFirst() {
        TouchConditions conditions = new TouchConditions(
                indicator(0, 0), new MachineLimits(0.010, 0.020), new Surroundings(0, Optional.empty()));
        Budget offset = new TouchPair(FIRST, SECOND).offset(conditions);
        assertEquals(
                List.of(
                        "backlash at each touch",
                        "step of the machine's readout at each touch",
                        "reading at one",
                        "reading at two"),
                offset.largestFirst().stream().map(line -> line.source()).toList());
    }

    /** Law: one needle position twice, and the indicator's own error cancels; far apart, it counts twice. */
    @Test
    void theIndicatorsErrorCancelsAtOneNeedlePosition() {
        Estimate zero = Estimate.exact(0.010);
        Touch same = touch("two", PRESS_PLUS, 150, zero, 0);
        Touch far = touch("two", PRESS_PLUS, 150, Estimate.exact(0.510), 0);
        Touch at = touch("one", PRESS_PLUS, 100, zero, 0);
        TouchConditions conditions = with(indicator(0.005, 0.5));
        assertEquals(0, new TouchPair(at, same).offset(conditions).combined().stdU());
        assertEquals(
                0.005 * Math.sqrt(2.0 / 3),
                new TouchPair(at, far).offset(conditions).combined().stdU(),
                1e-12);
    }

    @Test
    void whatNobodyStatedIsNamed() {
        List<String> warnings = new TouchPair(FIRST, SECOND).warnings(TouchConditions.NOT_STATED);
        assertEquals(1, warnings.size());
        for (String source : List.of("permissible error", "hysteresis", "tilt", "readout", "backlash", "drift")) {
            assertTrue(warnings.get(0).contains(source), warnings.get(0));
        }
    }

    @Test
    void touchesFromOppositeSidesWithoutAContactRadiusWarn() {
        Touch other =
                touch("two", new Approach(Direction.MINUS, Pressing.LOWERS, Stand.ON_TABLE), 150, Estimate.exact(0), 0);
        List<String> warnings = new TouchPair(FIRST, other).warnings(with(indicator(0, 0)));
        assertTrue(warnings.get(0).contains("opposite sides"), warnings.toString());
    }

    @Test
    void touchesOfTwoStandsAreNoPair() {
        Touch other = touch(
                "two", new Approach(Direction.PLUS, Pressing.RAISES, Stand.ON_MACHINE), 150, Estimate.exact(0), 0);
        assertThrows(IllegalArgumentException.class, () -> new TouchPair(FIRST, other));
        assertThrows(IllegalArgumentException.class, () -> new Reversal(FIRST, SECOND));
    }
}
