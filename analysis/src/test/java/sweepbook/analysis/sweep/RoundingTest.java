package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.hipparchus.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RoundingTest {
    private static final double Q_MM = 0.01;

    /** Law: the probability of the rounding interval, by the error function of a reference library. */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.15, 0.4, 0.69})
    void isTheProbabilityOfTheWholeInterval(double part) {
        double sigma_mm = part * Q_MM;
        Rounding rounding = new Rounding(sigma_mm, Q_MM);
        for (double d = -3 * Q_MM; d < 3 * Q_MM; d += 0.0123 * Q_MM) {
            double scale = Math.sqrt(2) * sigma_mm;
            double p = Erf.erf((d - Q_MM / 2) / scale, (d + Q_MM / 2) / scale) / 2;
            if (p > 1e-6) {
                assertEquals(
                        Math.log(p / Q_MM), rounding.log(d), 1e-3, "noise of " + part + " steps, " + d + " mm off");
            }
        }
    }

    /** Law: the score is the derivative of the log density by the true value, and the information that of the score, turned round. */
    @ParameterizedTest
    @ValueSource(doubles = {0.15, 0.4, 0.69, 2})
    void scoreAndInformationBelongToTheDensity(double part) {
        double sigma_mm = part * Q_MM;
        Rounding rounding = new Rounding(sigma_mm, Q_MM);
        double step_mm = 1e-4 * Q_MM;
        for (double d = -2 * Q_MM; d < 2 * Q_MM; d += 0.1 * Q_MM) {
            String where = "noise of " + part + " steps, " + d + " mm off";
            double slope = (rounding.log(d - step_mm) - rounding.log(d + step_mm)) / (2 * step_mm);
            double bend = (rounding.said(d + step_mm).score()
                            - rounding.said(d - step_mm).score())
                    / (2 * step_mm);
            // A line between two nodes of the table slopes as the curve does halfway between them.
            assertEquals(slope, rounding.said(d).score(), 0.01 / sigma_mm, where);
            assertEquals(bend, rounding.said(d).information(), 0.03 / (sigma_mm * sigma_mm), where);
        }
    }

    /** Law: Fisher's information is the mean of the squared score over all that may be read, by the error function of a reference library. */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.15, 0.4, 0.69, 2})
    void leapsSayTheMeanSquareOfTheScore(double part) {
        double sigma_mm = part * Q_MM;
        double scale = Math.sqrt(2) * sigma_mm;
        double step_mm = 1e-3 * Q_MM;
        double information = 0;
        for (double d = -20 * Q_MM; d < 20 * Q_MM; d += step_mm) {
            double p = Erf.erf((d - Q_MM / 2) / scale, (d + Q_MM / 2) / scale) / 2;
            double near = (d - Q_MM / 2) / sigma_mm;
            double far = (d + Q_MM / 2) / sigma_mm;
            double slope = (Math.exp(-far * far / 2) - Math.exp(-near * near / 2)) / Math.sqrt(2 * Math.PI) / sigma_mm;
            information += p > 1e-12 ? slope * slope / p * step_mm / Q_MM : 0;
        }
        // Well above the step rounding counts as normal noise.
        assertEquals(
                1,
                Rounding.ofLeaps(sigma_mm, Q_MM).said(0).information() / information,
                0.01,
                "noise of " + part + " steps");
    }

    /** Law: what a mixture with a flat density says, by the error function of a reference library. */
    @ParameterizedTest
    @ValueSource(doubles = {0.15, 0.4, 0.69, 2})
    void aSpikeIsTheOtherPossibility(double part) {
        double sigma_mm = part * Q_MM;
        double flat = 0.01 / Q_MM / 40;
        SaidCurve curve = new Rounding(sigma_mm, Q_MM).orSpike(Math.log(flat));
        double scale = Math.sqrt(2) * sigma_mm;
        for (double d = -20 * Q_MM; d < 20 * Q_MM; d += 0.0123 * Q_MM) {
            double p = Erf.erf((d - Q_MM / 2) / scale, (d + Q_MM / 2) / scale) / 2;
            String where = "noise of " + part + " steps, " + d + " mm off";
            // Well above the step rounding counts as normal noise.
            double tolerance = part > 0.7 ? 5e-3 : 1e-3;
            assertEquals(Math.log(p / Q_MM + flat), curve.said(d).log(), tolerance, where);
        }
    }

    /** Law: a reading that is a spike for sure says nothing of the true value. */
    @Test
    void aSpikeSaysNothing() {
        Rounding.Said said =
                new Rounding(0.3 * Q_MM, Q_MM).orSpike(Math.log(0.01)).said(50 * Q_MM);
        assertEquals(Math.log(0.01), said.log(), 0);
        assertEquals(0, said.score(), 0);
        assertEquals(0, said.information(), 0);
    }
}
