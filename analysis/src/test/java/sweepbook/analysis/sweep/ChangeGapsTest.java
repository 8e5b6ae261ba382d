package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** Laws of what a link sends of a display; readings count in its steps. */
class ChangeGapsTest {
    private static final double PER_s = 100;

    /** Passes of a hand after a rest, as whole steps, each reading shown until the next renewal. */
    private static double[] sent(double renewal, DoubleUnaryOperator level) {
        return IntStream.range(0, 4000)
                .mapToDouble(i -> Math.rint(level.applyAsDouble(Math.ceil(Math.floor(i / renewal) * renewal) / PER_s)))
                .toArray();
    }

    private static double swept(double t, double fall) {
        double way = t < 3 ? 1 : Math.abs(Math.IEEEremainder(t - 3, 8)) / 2 - 1;
        return -fall * way * way;
    }

    private static int repeats(double[] sent) {
        ChangeGaps gaps = new ChangeGaps();
        int last = 0;
        for (int i = 1; i < sent.length; i++) {
            if (sent[i] != sent[i - 1]) {
                gaps.add(i - last, sent[i] - sent[i - 1]);
                last = i;
            }
        }
        return gaps.repeats();
    }

    @Property
    void knowsHowOftenALinkSendsWhatADisplayShows(@ForAll @IntRange(min = 2, max = 40) int renewal) {
        assertEquals(renewal, repeats(sent(renewal, t -> swept(t, 300))));
    }

    /** Then now and then a value is sent once more. */
    @Property
    void doesSoWhereTheDisplayHasAPaceOfItsOwn(@ForAll @DoubleRange(min = 9, max = 40) double renewal) {
        assertEquals((int) renewal, repeats(sent(renewal, t -> swept(t, 300))));
    }

    /** A coarse reading stands still for as long as it takes to move by a step: longer near the crest. */
    @Property
    void takesACoarseReadingForNoSlowDisplay(@ForAll @DoubleRange(min = 3, max = 12) double fall) {
        assertEquals(1, repeats(sent(1, t -> swept(t, fall))));
    }

    /** A display that shows 7.5 values a second: what is kept was shown anew, once each while the hand moves. */
    @Test
    void keepsEachValueOnceWhileTheHandMoves() {
        double[] time_s = IntStream.range(0, 4000).mapToDouble(i -> i / PER_s).toArray();
        double[] sent = sent(13.5, t -> 40 * t);
        ReadingStore.Entries kept =
                Cadence.restored(new ReadingStore.Entries(time_s, sent), 1).entries();
        assertArrayEquals(Arrays.stream(sent).distinct().toArray(), kept.reading_mm());
    }
}
