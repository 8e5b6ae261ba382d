package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.uncertainty.Estimate;

class CrestDistributionTest {
    private static final double RESOLUTION_mm = 0.001;

    /** Of two passes nobody can tell a drift from a chip: the truth lies midway, or at either of them. */
    @Test
    void liesBetweenTwoPassesThatMayHaveDrifted() {
        Estimate crest = crest(pass(4, 0), pass(12, 0.001));
        assertEquals(0.0005, crest.value(), 0.0002);
        assertTrue(crest.u95() > 0.0005, "U95 " + crest.u95());
    }

    @Test
    void doesNotLieBetweenPassesFarApart() {
        Estimate crest = crest(pass(4, 0), pass(8, 0), pass(12, 0.02));
        assertEquals(0, crest.value(), 0.0001);
    }

    /** The line through the passes, at the mean of their times. */
    @Test
    void isGivenAtTheMeanDriftOfAllCrossings() {
        Estimate crest = crest(pass(4, 0), pass(6, 0.0006), pass(14, 0.003));
        assertEquals(0.0012, crest.value(), 0.0001);
    }

    private static Estimate crest(PassCrest... passes) {
        List<PassCrest> list = List.of(passes);
        Agreement agreement = new Agreement(list, Optional.empty(), RESOLUTION_mm);
        return new CrestDistribution(list, agreement, Optional.empty(), 4 * RESOLUTION_mm).crest(0);
    }

    private static PassCrest pass(double time_s, double crest_mm) {
        return new PassCrest(time_s, crest_mm, 1e-8, 0, 0.02, 2.5 * RESOLUTION_mm);
    }
}
