package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.acquisition.trace.Trace;

class TurnTrialsTest {
    private static final int SEEDS = 60;

    /** Law. */
    @ParameterizedTest
    @EnumSource(TurnKind.class)
    void theSameSeedGivesTheSameBits(TurnKind kind) {
        Trace first = TurnTrials.of(kind, 3).trace();
        Trace second = TurnTrials.of(kind, 3).trace();
        assertArrayEquals(first.times_s(), second.times_s());
        assertArrayEquals(first.readings_mm(), second.readings_mm());
        assertFalse(first.isEmpty());
    }

    /**
     * Simulated truth: least squares with all harmonics of the part and known angles reaches the bound and not less; a part of it
     * that were wrong (truth, angle, bound) would show. Root mean square over the seeds within 4 standard deviations of 1.
     */
    @Test
    void leastSquaresAtKnownAnglesReachesTheBound() {
        double eccentricity = 0;
        double angle = 0;
        for (long seed = 0; seed < SEEDS; seed++) {
            TurnTrial trial = TurnTrials.of(TurnKind.STATIONS, seed);
            double[] cosSin = firstHarmonic(trial.trace());
            double found_mm = Math.hypot(cosSin[0], cosSin[1]);
            double found_deg = Math.toDegrees(Math.atan2(cosSin[1], cosSin[0]));
            double off_deg = Math.IEEEremainder(found_deg - trial.highSpotAngle_deg(), 360);
            eccentricity += Math.pow((found_mm - trial.eccentricity_mm()) / trial.eccentricityBound_mm(), 2);
            angle += Math.pow(off_deg / trial.highSpotAngleBound_deg(), 2);
        }
        double spread = 4 * Math.sqrt(2.0 / SEEDS) / 2;
        assertEquals(1, Math.sqrt(eccentricity / SEEDS), spread, SEEDS + " seeds from 0");
        assertEquals(1, Math.sqrt(angle / SEEDS), spread, SEEDS + " seeds from 0");
    }

    /** At 12 stations or more, undulations of 4 to 9 a turn look like 3 or more: the first is clear of them. */
    private static double[] firstHarmonic(Trace trace) {
        int highest = 3;
        double[][] columns = new double[trace.size()][2 * highest];
        for (int i = 0; i < trace.size(); i++) {
            for (int n = 1; n <= highest; n++) {
                double angle_rad = Math.toRadians(n * trace.angle_deg(i));
                columns[i][2 * n - 2] = Math.cos(angle_rad);
                columns[i][2 * n - 1] = Math.sin(angle_rad);
            }
        }
        OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
        fit.newSampleData(trace.readings_mm(), columns);
        double[] beta = fit.estimateRegressionParameters();
        return new double[] {beta[1], beta[2]};
    }

    /** Law: as many marks as the turns hold, the one that was missed apart. */
    @ParameterizedTest
    @EnumSource(TurnKind.class)
    void marksAreAsManyAsTheTurnsHold(TurnKind kind) {
        for (long seed = 0; seed < 20; seed++) {
            TurnTrial trial = TurnTrials.of(kind, seed);
            int marks = 0;
            for (int i = 0; i < trial.trace().size(); i++) {
                marks += trial.trace().mark(i) ? 1 : 0;
            }
            double passed = trial.turns() * trial.marksPerTurn();
            int missed = kind == TurnKind.MISSED_MARK ? 1 : 0;
            boolean fits = kind == TurnKind.TURNS_BACK ? marks > passed : Math.abs(marks + missed - passed) <= 1;
            assertTrue(fits, kind + " seed " + seed + ": " + marks + " marks in " + trial.turns() + " turns");
        }
    }

    /** Non-regression: the hand of this seed passes the first mark before half the time to the second reading. */
    @Test
    void aMarkThatPassesRightAfterTheStartIsOnTheFirstReading() {
        assertTrue(TurnTrials.of(TurnKind.BY_HAND_TWELVE_MARKS, 41003).trace().mark(0));
    }

    /** Law: a mark is placed no better in a turning whose speed only the readings tell than in one that is known. */
    @Test
    void aSpeedThatIsNotKnownPlacesMarksLessWell() {
        TurnedPart part = new TurnedPart(0.05, 30, 20, List.of());
        MarkBound bound = new MarkBound(5);
        for (int i = 0; i < 100; i++) {
            bound.reading(0.1 * i, part, 72 * 0.1 * i, 1e-4);
        }
        bound.mark(0.5, -2, 1);
        bound.mark(9.5, -1, 2);
        assertEquals(2 / Math.sqrt(12), bound.stdU_deg(true), 1e-12);
        assertTrue(bound.stdU_deg(false) > bound.stdU_deg(true));
    }
}
