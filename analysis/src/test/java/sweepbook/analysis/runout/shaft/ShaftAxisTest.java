package sweepbook.analysis.runout.shaft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.List;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.uncertainty.Estimate;

class ShaftAxisTest {
    private static Station at(double along_mm, double x_mm, double y_mm) {
        return new Station(along_mm, new Estimate(x_mm, 0.001, 50), new Estimate(y_mm, 0.001, 50));
    }

    /** Law: centres on a straight line give its lean and offset, and no bend. */
    @Test
    void aStraightShaftLeansAndDoesNotBend() {
        ShaftAxis axis = ShaftAxis.of(
                        List.of(at(200, 0.01 + 0.02, 0.015), at(0, 0.01, 0), at(100, 0.01 + 0.01, 0.0075)))
                .asOptional()
                .orElseThrow();
        assertEquals(Math.hypot(1e-4, 7.5e-5), axis.lean().value(), 1e-12);
        assertEquals(Math.toDegrees(Math.atan2(7.5e-5, 1e-4)), axis.leanAngle_deg(), 1e-9);
        assertEquals(Math.hypot(0.02, 0.0075), axis.offset().value(), 1e-12);
        assertEquals(0, axis.bend().value(), 1e-12);
        assertEquals(0.001 / Math.sqrt(20_000), axis.lean().stdU(), 1e-12);
    }

    /** Law: a bow of three stations leaves a third of its height at the ends and two thirds in the middle. */
    @Test
    void aBowShowsAsBend() {
        ShaftAxis axis = ShaftAxis.of(List.of(at(0, 0, 0), at(100, 0, 0.03), at(200, 0, 0)))
                .asOptional()
                .orElseThrow();
        assertEquals(0.02, axis.bend().value(), 1e-12);
        assertEquals(100, axis.bendAt_mm());
    }

    @Test
    void onePlaceIsNoAxis() {
        assertFalse(ShaftAxis.of(List.of(at(5, 0, 0), at(5, 0.1, 0))).isFound());
    }

    /** Law: the vector's components carry the uncertainty of length and angle turned into its direction. */
    @Test
    void anEccentricityIsAVector() {
        Station station = Station.of(10, new Estimate(0.02, 0.001, 30), new Estimate(90, 1, 40));
        assertEquals(0, station.x().value(), 1e-15);
        assertEquals(0.02, station.y().value(), 1e-15);
        assertEquals(0.02 * Math.toRadians(1), station.x().stdU(), 1e-12);
        assertEquals(0.001, station.y().stdU(), 1e-12);
    }
}
