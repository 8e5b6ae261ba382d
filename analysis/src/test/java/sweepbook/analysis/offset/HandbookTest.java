package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.published.Published;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Estimate;

/** Published: figures that handbooks tabulate; the lever's factor is common practice. */
class HandbookTest {
    @Test
    void leverFactors_angles_andExpansionOffTwentyDegrees() {
        try (Published handbook = Published.source("handbook-figures.txt")) {
            double[] degrees = handbook.data("lever_deg");
            double[] factors = new double[degrees.length];
            for (int i = 0; i < degrees.length; i++) {
                factors[i] =
                        LeverContact.readingScale(Estimate.exact(degrees[i])).value();
            }
            handbook.check("lever_factor", factors);
            handbook.check("um_per_m_for_1_arcsec", Angles.mm_per_m(1.0 / 3600) * 1000);
            handbook.check("arcsec_for_1_mm_per_m", Angles.arcSeconds(Angles.deg(0.001)));
            handbook.check("deg_for_1_mm_per_m", Angles.deg(0.001));
            handbook.check("arcsec_for_0.001_in_per_ft", Angles.arcSeconds(Angles.deg(0.001 / 12)));
            handbook.check("arcsec_for_0.0005_in_per_ft", Angles.arcSeconds(Angles.deg(0.0005 / 12)));
            assertEquals(0.001, Angles.in_per_ft(Angles.deg(0.001 / 12)), 1e-15);
            handbook.check("steel_100mm_5K_um", expansion_um(100, 5));
            handbook.check("steel_1000mm_1K_um", expansion_um(1000, 1));
        }
    }

    /** A steel part at 20 C plus excess, against a scale that does not expand: what the correction takes off. */
    private static double expansion_um(double length_mm, double excess_K) {
        Temperature temperature = new Temperature(
                Estimate.exact(excess_K), Estimate.exact(0), Estimate.exact(11.5e-6), Estimate.exact(0));
        Touch start = touch(0);
        Touch end = touch(-length_mm);
        TouchConditions warm = new TouchConditions(
                IndicatorLimits.NOT_STATED, MachineLimits.NOT_STATED, new Surroundings(0, Optional.of(temperature)));
        return (length_mm - new TouchPair(start, end).offset(warm).value()) * 1000;
    }

    private static Touch touch(double position_mm) {
        Approach approach = new Approach(Direction.PLUS, Pressing.RAISES, Stand.ON_TABLE);
        return new Touch(new Feature.Flat("end"), approach, position_mm, Estimate.exact(0), 0);
    }
}
