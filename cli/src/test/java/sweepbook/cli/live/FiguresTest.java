package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.uncertainty.Estimate;

class FiguresTest {
    @Test
    void aHalfWidthHasOneDecimalMoreThanTheDisplay() {
        assertEquals(
                "+0.0050 ± 0.0020 mm",
                Figures.plusMinus(new Estimate(0.005, 0.001, Double.POSITIVE_INFINITY), LengthUnit.MM, 0.001));
    }

    /** Nothing is known so well that its half-width is nought. */
    @Test
    void aSmallHalfWidthIsNotShownAsNought() {
        assertEquals(
                "+0.00496 ± 0.00004 mm",
                Figures.plusMinus(new Estimate(0.00496, 0.00002, Double.POSITIVE_INFINITY), LengthUnit.MM, 0.001));
    }
}
