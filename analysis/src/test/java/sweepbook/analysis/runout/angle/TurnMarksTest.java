package sweepbook.analysis.runout.angle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class TurnMarksTest {
    /** Four marks a turn, one a second, a reading every tenth. */
    private static final TurnMarks EVEN =
            new TurnMarks(new double[] {0, 1, 2, 3}, Math.PI / 2, new double[] {0.05, 0.05, 0.05, 0.05});

    private static String silence(double from_s, double to_s, double sure) {
        return EVEN.silence(EVEN.turning(), from_s, to_s, sure).orElse("");
    }

    /** Law: a part that turns on by more than a mark's spacing passes a mark. */
    @Test
    void aTurningThatGoesOnPassesAnotherMark() {
        assertEquals(Optional.empty(), EVEN.silence(EVEN.turning(), -0.9, 3.9, 1));
        assertTrue(silence(-0.9, 4.5, 1).startsWith("after the mark at 3.00 s"));
        assertTrue(silence(-1.5, 3.9, 1).startsWith("before the mark at 0.00 s"));
        assertEquals("", silence(-0.9, 4.5, 0.6), "so far is not sure");
    }
}
