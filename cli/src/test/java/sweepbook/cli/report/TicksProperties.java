package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

class TicksProperties {
    /** Law: never more than asked for, always inside the range, always at least two fifths of them, less one. */
    @Property
    void ticksStayInsideAndAreFew(
            @ForAll @DoubleRange(min = -1e4, max = 1e4) double from,
            @ForAll @IntRange(min = -40, max = 40) int decibels,
            @ForAll @IntRange(min = 3, max = 12) int atMost) {
        double width = Math.pow(10, decibels / 10.0);
        Ticks ticks = Ticks.between(from, from + width, atMost);
        List<Double> values = ticks.values();
        assertTrue(values.size() <= atMost + 1, () -> ticks + " has " + values);
        // From one step to the next is 2.5 times at most, and both ends may fall just short of a tick.
        assertTrue(values.size() >= atMost / 2.5 - 1, () -> ticks + " has " + values);
        assertEquals(values.size(), ticks.labels().size());
        for (double value : values) {
            assertTrue(value >= from - 1e-5 * width && value <= from + width * (1 + 1e-5), () -> ticks + " " + value);
        }
    }
}
