package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;

class LikelyFormTest {
    private static final int READINGS = 720;
    private static final int[] UPR = {1, 2, 3, 4, 5, 6};

    private static TurnFit fit(double lobes_mm, double noise_mm, long seed) {
        return fitOf(UPR, lobes_mm, noise_mm, seed);
    }

    private static TurnFit fitOf(int[] upr, double lobes_mm, double noise_mm, long seed) {
        Random random = new Random(seed);
        double[] time = new double[READINGS];
        double[] angle = new double[READINGS];
        double[] reading = new double[READINGS];
        for (int i = 0; i < READINGS; i++) {
            time[i] = 0.01 * i;
            angle[i] = 4 * Math.PI * i / READINGS;
            reading[i] = 0.05 * Math.cos(angle[i] - 1)
                    + lobes_mm * Math.cos(3 * angle[i])
                    + noise_mm * random.nextGaussian();
        }
        return TurnFit.atAngles(new Samples(time, reading, 0, 0), upr, 0, angle, TurnFit.Detail.PLAIN);
    }

    private static LikelyForm likely(TurnFit fit) {
        return new LikelyForm(fit, fit.covariance(), 6, 1);
    }

    /** Law: what stands out of the noise far enough stays as it is, and the eccentricity with it. */
    @Test
    void whatStandsOutStays() {
        TurnFit fit = fit(0.01, 1e-5, 1);
        LikelyForm likely = likely(fit);
        assertTrue(likely.stands(3));
        assertFalse(likely.stands(1), "the first is no form");
        assertEquals(fit.profile().amplitude_mm(3), likely.profile().amplitude_mm(3), 1e-8);
        assertEquals(fit.profile().amplitude_mm(1), likely.profile().amplitude_mm(1), 1e-8);
    }

    /** Simulated truth: of a round part less is left of what noise makes than the fit makes of it. */
    @Test
    void noiseShrinks() {
        double fitted = 0;
        double left = 0;
        for (long seed = 1; seed <= 50; seed++) {
            TurnFit fit = fit(0, 0.002, seed);
            fitted += Math.pow(fit.profile().aboutItsCentre().rms_mm(), 2);
            left += Math.pow(likely(fit).profile().aboutItsCentre().rms_mm(), 2);
        }
        assertTrue(left < 0.6 * fitted, "seeds 1 to 50: " + left + " of " + fitted + " mm^2");
    }

    /** Law: of nine undulations that are fitted if noise lifts them, one stands in 5 % of parts that have none of them. */
    @Test
    void theLongestOfManyIsStillNoise() {
        int standing = 0;
        int parts = 200;
        for (long seed = 1; seed <= parts; seed++) {
            TurnFit few = fit(0.01, 0.002, seed);
            int[] chosen = HarmonicChoice.withMissing(few, UPR, 15, 20);
            TurnFit fit = fitOf(chosen, 0.01, 0.002, seed);
            LikelyForm likely = new LikelyForm(fit, fit.covariance(), 15, 1);
            standing += Arrays.stream(chosen).anyMatch(n -> n > 6 && likely.stands(n)) ? 1 : 0;
        }
        double spread = Math.sqrt(0.05 * 0.95 / parts);
        assertEquals(0.05, (double) standing / parts, 3 * spread, "seeds 1 to " + parts);
    }

    /** Law: knowing that form is small makes nothing less sure. */
    @Test
    void nothingGetsLessSure() {
        TurnFit fit = fit(0.001, 0.002, 3);
        LikelyForm likely = likely(fit);
        for (int j = 0; j < fit.covariance().getRowDimension(); j++) {
            assertTrue(likely.covariance().getEntry(j, j) <= fit.covariance().getEntry(j, j) * (1 + 1e-9));
            assertTrue(likely.covariance().getEntry(j, j) > 0);
        }
    }

    /** Law: a covariance is symmetric, also where rounding left the fit's a little otherwise and every undulation stands. */
    @Test
    void theCovarianceIsSymmetric() {
        for (double lobes_mm : new double[] {0, 0.01}) {
            TurnFit fit = fitOf(new int[] {1, 3}, lobes_mm, 1e-5, 5);
            RealMatrix rounded = fit.covariance().copy();
            rounded.addToEntry(0, 3, 1e-17);
            RealMatrix covariance = new LikelyForm(fit, rounded, 3, 1).covariance();
            assertEquals(covariance, covariance.transpose());
        }
    }
}
