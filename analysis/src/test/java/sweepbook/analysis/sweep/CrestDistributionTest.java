package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
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

    /** Law: what is left falls by a factor of e in 1.5 s; the crest is where it ends, though no pass was ever there. */
    @Test
    void isWhereTheStandSettles() {
        double left_mm = 0.008;
        Estimate crest = crest(DoubleStream.of(0.5, 1.3, 2.2, 3.1, 3.9)
                .mapToObj(t -> pass(t, -left_mm * Math.exp(-t / 1.5)))
                .toArray(PassCrest[]::new));
        assertEquals(0, crest.value(), 0.0004);
        assertTrue(Math.abs(crest.value()) < crest.u95() && crest.u95() < 0.0015, crest.toString());
    }

    /** Two passes that lie on a slope tell of a drift or of a stand that settles; a rest that slopes no more tells which. */
    @Test
    void isToldByARestAfterThePasses() {
        PassCrest[] passes = {pass(1, -0.003), pass(2.5, -0.0011)};
        RestSlope stands = new RestSlope(4, 7, 0, 0.00005);
        RestSlope drifts = new RestSlope(4, 7, 0.0019 / 1.5, 0.00005);
        Estimate settled = crest(List.of(stands), passes);
        assertTrue(Math.abs(settled.value()) < settled.u95(), settled.toString());
        assertEquals(-0.00205, crest(List.of(drifts), passes).value(), 0.0002);
    }

    private static Estimate crest(PassCrest... passes) {
        return crest(List.of(), passes);
    }

    private static Estimate crest(List<RestSlope> rests, PassCrest... passes) {
        List<PassCrest> list = List.of(passes);
        Agreement agreement = new Agreement(list, Optional.empty(), rests, 0, RESOLUTION_mm);
        return new CrestDistribution(list, agreement, Optional.empty(), 4 * RESOLUTION_mm).crest(0);
    }

    private static PassCrest pass(double time_s, double crest_mm) {
        return new PassCrest(time_s, crest_mm, 1e-8, 0, 0.02, 2.5 * RESOLUTION_mm);
    }
}
