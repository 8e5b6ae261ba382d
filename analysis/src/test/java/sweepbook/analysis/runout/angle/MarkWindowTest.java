package sweepbook.analysis.runout.angle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.uncertainty.Estimate;

class MarkWindowTest {
    private static final double SPEED_RAD_PER_S = 2 * Math.PI;

    /** One mark a turn, a turn a second, a reading every tenth of a second. */
    private static TurnMarks marks(double... time_s) {
        double[] early = new double[time_s.length];
        Arrays.fill(early, 0.05);
        return new TurnMarks(time_s, 2 * Math.PI, early);
    }

    private static Turning even() {
        return Turning.even(0, 3, SPEED_RAD_PER_S);
    }

    /** Law: where one mark is all there is, a reading wide and rectangular. */
    @Test
    void oneMarkIsKnownToHalfAReading() {
        Estimate shift =
                MarkWindow.shift_rad(marks(0.2), even(), 1.5, 0).asOptional().orElseThrow();
        assertEquals(-0.2 * SPEED_RAD_PER_S, shift.value(), 1e-12);
        assertEquals(0.1 * SPEED_RAD_PER_S / Math.sqrt(12), shift.stdU(), 1e-12);
    }

    /** Law: windows of (-0.05, 0.05) and (-0.02, 0.08) s overlap in (-0.02, 0.05) s. */
    @Test
    void marksNarrowEachOther() {
        Estimate shift = MarkWindow.shift_rad(marks(0, 0.97), even(), 1.5, 0)
                .asOptional()
                .orElseThrow();
        assertEquals(0.015 * SPEED_RAD_PER_S, shift.value(), 1e-12);
        assertEquals(0.07 * SPEED_RAD_PER_S / Math.sqrt(12), shift.stdU(), 1e-12);
    }

    @Test
    void marksThatNoEvenTurningPassesHaveNoShift() {
        assertFalse(MarkWindow.shift_rad(marks(0, 0.85), even(), 1.5, 0).isFound());
    }
}
