package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Laws of what is a spike and what is motion; readings count in steps of the display. */
class CleanTraceTest {
    private static final double[] STILL = {0, 0, 1, 0, 0, 1, 1, 0, 0, 0};

    @Test
    void marksTwoSpikesAtEitherEnd() {
        assertEquals(List.of(0, 1), spikes(clean(joined(new double[] {-740, 521}, STILL))));
        assertEquals(List.of(10, 11), spikes(clean(joined(STILL, new double[] {-521, -740}))));
    }

    @Test
    void marksOneSpikeAtEitherEndThoughTheTraceMovesFastElsewhere() {
        double[] fast = joined(new double[] {0, 1, 100, 300, 400}, new double[] {400, 401, 400, 400, 401});
        assertEquals(List.of(0), spikes(clean(joined(new double[] {160}, joined(STILL, fast)))));
        assertEquals(List.of(20), spikes(clean(joined(joined(STILL, fast), new double[] {160}))));
    }

    @Test
    void keepsALineLevelBesideTwoSpikesAtItsEnd() {
        CleanTrace trace = clean(joined(STILL, new double[] {-521, -740}));
        assertArrayEquals(new double[] {0, 0}, Arrays.copyOfRange(trace.line_mm(), 10, 12));
    }

    @Test
    void takesAMotionThatQuickensAtTheEndForNone() {
        assertEquals(List.of(), spikes(clean(joined(STILL, new double[] {1, 3, 6, 10, 15, 21, 28, 36}))));
    }

    /** The trace begins steeply just before a crest. */
    @Test
    void takesABeginningOnAFlankForNone() {
        double[] pass = {-8, -5, -2, -1, -1, 0, -1, -2, -3, -6, -9, -13, -18, -23, -24, -23};
        assertEquals(List.of(), spikes(clean(pass)));
    }

    /** Nine readings a second of a hand that sweeps fast: the median of five lies far below the crest. */
    @Test
    void takesAQuickCrestForNone() {
        double[] pass = {-34, -34, -34, -34, -34, -17, 0, -4, -14, -28, -41, -54, -67, -88, -124, -175, -145, -103, -78
        };
        CleanTrace trace = clean(joined(pass, new double[20]));
        assertEquals(List.of(), spikes(trace));
        assertEquals(0, trace.line_mm()[6]);
    }

    @Test
    void takesAFirstReadingOnASteepFlankForNone() {
        double[] pass = {
            -12, -7, -4, -3, 0, 1, 1, -1, -3, -6, -9, -12, -20, -26, -24, -21, -19, -14, -11, -12, -7, -5, -2
        };
        assertEquals(List.of(), spikes(clean(joined(pass, new double[] {-1, -3, -1, -1, -1, 1, 0, 1, 1, 1, 0, 0}))));
    }

    @Test
    void marksASpikeBeforeTheLastReadingThoughTheTraceMovesFastElsewhere() {
        double[] fast = joined(new double[] {400, 300, 100, 0}, STILL);
        assertTrue(spikes(clean(joined(joined(STILL, fast), new double[] {-237, -8})))
                .contains(24));
    }

    /** The hand slows just before the crest, which three readings show. */
    @Test
    void takesACrestOfThreeReadingsForNone() {
        double[] pass = {0, 7, 31, 74, 106, 118, 121, 127, 126, 116, 99, 80, 47, 31, 7, 0};
        double[] rest = new double[80];
        assertEquals(List.of(), spikes(clean(joined(joined(STILL, pass), rest))));
    }

    @Test
    void marksThreeSpikesInARow() {
        double[] spiked = joined(joined(STILL, new double[] {300, 340, 320}), STILL);
        assertEquals(
                List.of(10, 11, 12),
                spikes(clean(joined(STILL, spiked))).stream().map(i -> i - 10).toList());
    }

    private static CleanTrace clean(double[] reading) {
        double[] time_s =
                IntStream.range(0, reading.length).mapToDouble(i -> i / 10.0).toArray();
        return CleanTrace.of(time_s, reading, 1, 1);
    }

    private static List<Integer> spikes(CleanTrace trace) {
        return IntStream.range(0, trace.size())
                .filter(i -> trace.spike()[i])
                .boxed()
                .toList();
    }

    private static double[] joined(double[] first, double[] then) {
        double[] all = Arrays.copyOf(first, first.length + then.length);
        System.arraycopy(then, 0, all, first.length, then.length);
        return all;
    }
}
