package sweepbook.analysis.runout.angle;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

class MarkDoubtsTest {
    /** Four marks a turn, a reading every tenth of a second. */
    private static MarkDoubts marks(double... time_s) {
        double[] early = new double[time_s.length];
        Arrays.fill(early, 0.05);
        return new MarkDoubts(new TurnMarks(time_s, Math.PI / 2, early));
    }

    /** Law: a rest of three intervals among even marks, also after the last one. */
    @Test
    void aRestBetweenMarksIsAStop() {
        assertTrue(marks(0, 1, 2, 5, 6, 7).stop(7.5).isPresent());
        assertTrue(marks(0, 1, 2, 3).stop(6).isPresent());
        assertFalse(marks(0, 1, 2, 4, 5, 6).stop(6.9).isPresent());
    }

    @Test
    void evenMarksAreInNoDoubt() {
        assertEquals(List.of(), marks(0, 1, 2, 3, 4, 5).spacing());
        assertEquals(List.of(), marks(0, 1).outOfPlace());
    }

    /** Law: a mark missed where the hand was quick makes an interval that slow ones elsewhere exceed, and is doubted too. */
    @Test
    void longerIntervalsElsewhereHideNoMissedMark() {
        double[] interval_s = {1, 1, 2.2, 1, 1, 2.2, 1, 1, 2.2, 1, 1, 2.2, 1, 1, 0.7, 1.3, 0.7, 0.7, 1, 1};
        double[] time_s = new double[interval_s.length + 1];
        for (int m = 0; m < interval_s.length; m++) {
            time_s[m + 1] = time_s[m] + interval_s[m];
        }
        double missedAfter_s = time_s[15];
        assertTrue(marks(time_s).spacing().stream().anyMatch(doubt -> doubt.reason()
                .startsWith(String.format(Locale.ROOT, "between the marks at %.2f s", missedAfter_s))));
    }

    /** Law: without its fault the numbers of the marks are those of an even turning. */
    @Test
    void aDoubtHoldsTheMarksWithoutTheirFault() {
        TurnMarks missed = marks(0, 1, 2, 4, 5).spacing().get(0).instead();
        assertArrayEquals(new int[] {0, 1, 2, 4, 5}, missed.number());
        TurnMarks twice = marks(0, 1, 2, 2.3, 3, 4).spacing().stream()
                .filter(doubt -> doubt.reason().contains("counted twice"))
                .findFirst()
                .orElseThrow()
                .instead();
        assertArrayEquals(new int[] {0, 1, 2, 3, 4}, twice.number());
        assertArrayEquals(new double[] {0, 1, 2, 3, 4}, twice.time_s());
        TurnMarks late = marks(0, 1, 2.4, 3, 4).outOfPlace().stream()
                .filter(doubt -> doubt.reason().contains("early or late"))
                .findFirst()
                .orElseThrow()
                .instead();
        assertArrayEquals(new int[] {0, 1, 3, 4}, late.number());
        assertArrayEquals(new double[] {0, 1, 3, 4}, late.time_s());
    }
}
