package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class AgreementTest {
    private static final double RESOLUTION_mm = 0.001;

    /** Common practice: a magnetic base that warms drifts by some divisions in some minutes. */
    @Test
    void takesWhatASlowDriftMakesOfTwoPassesForADrift() {
        assertEquals(0.000125, drift_mm_per_s(12, 0.0015), 1e-9);
    }

    /** So fast no stand drifts. */
    @Test
    void takesTwoPassesFarApartForNoDrift() {
        assertEquals(0, drift_mm_per_s(12, 0.012));
    }

    private static double drift_mm_per_s(double apart_s, double higher_mm) {
        List<PassCrest> passes = List.of(pass(0, 0), pass(apart_s, higher_mm));
        return new Agreement(passes, Optional.empty(), RESOLUTION_mm).drift_mm_per_s();
    }

    private static PassCrest pass(double time_s, double crest_mm) {
        return new PassCrest(time_s, crest_mm, 1e-8, 0, 0.05, 2.5 * RESOLUTION_mm);
    }
}
