package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.Test;

class TicksTest {
    @Test
    void wholeMultiplesWithTheDecimalsOfTheirStep() {
        assertEquals(
                List.of("0.000", "0.005", "0.010", "0.015"),
                Ticks.between(-0.001, 0.017, 6).labels());
    }

    @Test
    void zeroIsZeroAndNotAlmost() {
        assertEquals(
                List.of(-0.1, 0.0, 0.1, 0.2, 0.3), Ticks.between(-0.1, 0.3, 6).values());
    }

    @Test
    void bigStepsHaveNoPoint() {
        assertEquals(List.of("0", "200", "400"), Ticks.between(0, 500, 4).labels());
    }

    @Test
    void aGivenStep() {
        assertEquals(
                List.of("0", "90", "180", "270", "360"),
                Ticks.every(BigDecimal.valueOf(90), 0, 360).labels());
    }

    @Test
    void anEmptyRangeIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Ticks.between(1, 1, 5));
    }
}
