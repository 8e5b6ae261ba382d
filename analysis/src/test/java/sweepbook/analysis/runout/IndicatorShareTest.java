package sweepbook.analysis.runout;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.offset.LeverContact;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Estimate;

class IndicatorShareTest {
    /** 0.050 mm eccentric, shown in steps of 0.1 um. */
    private static Runout read(IndicatorLimits indicator) {
        Trace.Builder trace = new Trace.Builder(LengthUnit.MM, 1e-4);
        for (int i = 0; i < 800; i++) {
            double r = 0.05 * Math.cos(2 * Math.PI * (i - 0.3) / 200);
            trace.add(new Reading(0.02 * i, Math.rint(r * 1e4) / 1e4, i % 200 == 0));
        }
        return RunoutReader.read(trace.build(), RunoutSettings.USUAL.withIndicator(indicator, Optional.empty()))
                .asOptional()
                .orElseThrow();
    }

    private static double angleStdU_deg(Runout found) {
        return found.highSpotAngle_deg().asOptional().orElseThrow().stdU();
    }

    private static IndicatorLimits limits(double error_mm, double independentAfter_mm, double hysteresis_mm) {
        return new IndicatorLimits(
                error_mm, independentAfter_mm, hysteresis_mm, 0, Estimate.exact(1), Estimate.exact(0));
    }

    /** Law (JCGM 100:2008, 4.3.7 and 5.1.2): the difference of two readings with independent errors of one limit. */
    @Test
    void twoIndependentErrorsAddInTheMovement_andHalfOfThatInTheEccentricity() {
        Runout found = read(limits(0.004, 0.05, 0));
        double twoErrors_mm = Math.sqrt(2) * 0.004 / Math.sqrt(3);
        assertEquals(twoErrors_mm, found.fim().stdU(), 5e-6);
        assertEquals(twoErrors_mm / 2, found.eccentricity().stdU(), 5e-6);
        assertEquals(0.1, found.fim().value(), 1e-4);
        assertEquals(2, found.fimBudget().lines().size(), found.fimBudget().toString());
        double across_deg =
                Math.toDegrees(twoErrors_mm / 2 / found.eccentricity().value());
        double byReadings_deg = angleStdU_deg(read(IndicatorLimits.NOT_STATED));
        assertEquals(Math.hypot(byReadings_deg, across_deg), angleStdU_deg(found), 1e-6);
    }

    /** Law: what both readings share drops out of their difference. */
    @Test
    void errorsThatGoTogetherPartlyDropOut() {
        double together = read(limits(0.004, 0.4, 0)).fim().stdU();
        assertEquals(Math.sqrt(2 * 0.25) * 0.004 / Math.sqrt(3), together, 2e-5);
    }

    /** Law: a lever at 60 degrees moves half of what it shows. */
    @Test
    void aLeversAngleScalesEveryFigure() {
        Estimate angle = new Estimate(60, 0, Double.POSITIVE_INFINITY);
        IndicatorLimits lever = new IndicatorLimits(0, 1, 0, 0, LeverContact.readingScale(angle), Estimate.exact(0));
        Runout found = read(lever);
        assertEquals(0.05, found.fim().value(), 5e-5);
        assertEquals(0.025, found.eccentricity().value(), 2e-5);
        assertEquals(0.05, found.rawFim_mm(), 1e-4);
        assertTrue(found.outOfRoundness().get(ReferenceCircle.LEAST_SQUARES).value() < 2e-4);
    }

    @Test
    void saysThatTheIndicatorsErrorIsNotStated() {
        assertTrue(
                read(IndicatorLimits.NOT_STATED).warnings().stream().anyMatch(w -> w.contains("not stated")), "warned");
        assertTrue(read(limits(0.001, 1, 0)).warnings().stream().noneMatch(w -> w.contains("not stated")), "silent");
    }
}
