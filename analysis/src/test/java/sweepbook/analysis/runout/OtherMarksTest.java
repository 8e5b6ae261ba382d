package sweepbook.analysis.runout;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;

class OtherMarksTest {
    /** One turn of a reading a degree, off its axis by so much and oval by a tenth of it. */
    private static TurnFit fit(double eccentricity_mm, int... upr) {
        double[] angle_rad = new double[360];
        double[] reading_mm = new double[360];
        for (int i = 0; i < 360; i++) {
            angle_rad[i] = Math.toRadians(i);
            reading_mm[i] = eccentricity_mm * (Math.cos(angle_rad[i]) + 0.1 * Math.sin(2 * angle_rad[i]));
        }
        return TurnFit.atAngles(new Samples(angle_rad, reading_mm, 0, 0), upr, 0, angle_rad, TurnFit.Detail.PLAIN);
    }

    /** Law: of two things equally likely, each lies off their mean by half of what they differ. */
    @Test
    void whatIsAsLikelyCountsAsMuch() {
        TurnFit told = fit(0.02, 1, 2);
        OtherMarks others = new OtherMarks(told);
        assertEquals(0, others.covariance(told).getNorm1());
        others.add(fit(0.023, 1), 0);
        assertEquals(0.003 * 0.003 / 2, others.covariance(told).getEntry(1, 1), 1e-9);
        assertEquals(0.002 * 0.002 / 2, others.covariance(told).getEntry(4, 4), 1e-9, "the other has no oval");
        assertEquals(-0.003 * 0.002 / 2, others.covariance(told).getEntry(1, 4), 1e-9);
    }

    /** Law: what the readings speak against is no matter, what they speak for counts no more than what was told. */
    @Test
    void theReadingsDecide() {
        TurnFit told = fit(0.02, 1, 2);
        OtherMarks unlikely = new OtherMarks(told);
        unlikely.add(fit(0.023, 1), 20);
        assertEquals(0, unlikely.covariance(told).getEntry(1, 1), 1e-13);
        OtherMarks likely = new OtherMarks(told);
        likely.add(fit(0.023, 1), -5);
        assertEquals(0.003 * 0.003 / 2, likely.covariance(told).getEntry(1, 1), 1e-9);
    }
}
