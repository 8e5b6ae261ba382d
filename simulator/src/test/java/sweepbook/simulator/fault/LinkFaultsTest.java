package sweepbook.simulator.fault;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.simulator.indicator.Display;
import sweepbook.simulator.indicator.Sample;

/** Laws of the troubles on the way to the one who records. */
class LinkFaultsTest {
    private static final Display DISPLAY = new Display(LengthUnit.MM, 1000);
    private static final int SENT = 20_000;

    /** A ramp, so that every value tells where it was sent. */
    private final List<Sample> sent = IntStream.range(0, SENT)
            .mapToObj(i -> new Sample(0.02 * i, new Reading(0.02 * i, DISPLAY.shown_mm(0.001 * i)), true))
            .toList();

    private final Random random = new Random(17);

    @Test
    void spikesHitTheirShareAndAreNotIntact() {
        List<Sample> spiked = new Spikes(0.05, DISPLAY, 8).on(sent, random);
        long hit = spiked.stream().filter(sample -> !sample.intact()).count();
        // Four standard deviations of a binomial count.
        assertEquals(0.05 * SENT, hit, 4 * Math.sqrt(SENT * 0.05 * 0.95));
        for (int i = 0; i < SENT; i++) {
            double off_mm = Math.abs(
                    spiked.get(i).reading().reading_mm() - sent.get(i).reading().reading_mm());
            assertTrue(spiked.get(i).intact() ? off_mm == 0 : off_mm <= 8.001, "reading " + i + " off by " + off_mm);
        }
    }

    @Test
    void lostBurstsTakeTheirShareInRunsAndKeepTheRest() {
        List<Sample> arrived = new LostBursts(0.1, 12).on(sent, random);
        // A run starts with a chance of share * 2 / (1 + longest) wherever none goes on, so a little less is lost.
        assertEquals(0.1 / 1.1 * SENT, SENT - arrived.size(), 0.015 * SENT);
        int gap = 0;
        for (int i = 1; i < arrived.size(); i++) {
            int step = (int) Math.round(
                    50 * (arrived.get(i).taken_s() - arrived.get(i - 1).taken_s()));
            assertTrue(step >= 1, "in order at " + i);
            gap = Math.max(gap, step);
        }
        assertTrue(gap > 2, "readings are lost in runs");
    }

    @Test
    void latencyDelaysByLessThanItsTimerAndKeepsValuesAndOrder() {
        List<Sample> late = new UsbLatency(0.05).on(sent, random);
        Set<Double> stamps = new HashSet<>();
        for (int i = 0; i < SENT; i++) {
            double delay_s =
                    late.get(i).reading().time_s() - sent.get(i).reading().time_s();
            assertTrue(delay_s > -1e-9 && delay_s < 0.05, "delay " + delay_s);
            assertEquals(
                    sent.get(i).reading().reading_mm(), late.get(i).reading().reading_mm());
            assertTrue(i == 0
                    || late.get(i).reading().time_s()
                            >= late.get(i - 1).reading().time_s());
            stamps.add(late.get(i).reading().time_s());
        }
        assertEquals(SENT * 0.02 / 0.05, stamps.size(), 2, "one stamp a tick of the timer");
    }

    @Test
    void aSlowDisplayRepeatsEachValue() {
        List<Sample> shown = new SlowDisplay(4).on(sent, random);
        long fresh = shown.stream().filter(Sample::intact).count();
        assertEquals(SENT / 4.0, fresh, 1);
        for (int i = 1; i < SENT; i++) {
            if (!shown.get(i).intact()) {
                assertEquals(
                        shown.get(i - 1).reading().reading_mm(),
                        shown.get(i).reading().reading_mm());
            }
        }
    }
}
