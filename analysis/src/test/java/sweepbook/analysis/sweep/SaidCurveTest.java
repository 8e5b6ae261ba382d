package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class SaidCurveTest {
    private static final double REACH_MM = 3;

    /** Law: cubic pieces that share values and slopes with a cubic are that cubic. */
    @Test
    void isExactForACubic() {
        Rounding.Said[] nodes = new Rounding.Said[7];
        for (int i = 0; i < nodes.length; i++) {
            nodes[i] = cubic(REACH_MM * i / (nodes.length - 1));
        }
        SaidCurve curve = new SaidCurve(REACH_MM, nodes);
        for (double d = 0; d < REACH_MM; d += 0.017) {
            Rounding.Said expected = cubic(d);
            Rounding.Said said = curve.said(d);
            assertEquals(expected.log(), said.log(), 1e-12);
            assertEquals(expected.score(), said.score(), 1e-12);
            assertEquals(expected.information(), said.information(), 1e-12);
            assertEquals(-expected.score(), curve.said(-d - 1e-300).score(), 1e-12, "the other way");
        }
        assertEquals(cubic(REACH_MM).log(), curve.said(2 * REACH_MM).log(), 1e-12, "beyond the last distance");
    }

    /** Of a reading d above the true value; the score counts by the true value, which moves against the distance. */
    private static Rounding.Said cubic(double d) {
        return new Rounding.Said(1 - 2 * d - 0.5 * d * d + 0.1 * d * d * d, 2 + d - 0.3 * d * d, 1 - 0.6 * d);
    }
}
