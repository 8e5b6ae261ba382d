package sweepbook.cli.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.simulator.trial.RestKind;
import sweepbook.simulator.trial.SweepKind;

class StableZeroProofTest {
    private static final long FIRST_SEED = 4_200;

    /** Simulated truth: the bounds allow for three deviations of 30 trials. */
    @ParameterizedTest
    @EnumSource(
            value = SweepKind.class,
            names = {"CLEAN", "DRIFT", "COARSE", "LOST_BURSTS"})
    void theStableZeroIsNearItsBound(SweepKind kind) {
        int seeds = 30;
        HighSpotProof proof = HighSpotProof.of(kind, FIRST_SEED, FIRST_SEED + seeds);
        String where = kind + " seeds " + FIRST_SEED + " to " + (FIRST_SEED + seeds - 1);
        assertAll(
                () -> assertTrue(proof.zerosMissing() <= 2, proof.zerosMissing() + " missing, " + where),
                () -> assertTrue(
                        proof.stableZero().overMeanBound() < 1.7,
                        proof.stableZero().overMeanBound() + " x, " + where),
                () -> assertTrue(
                        proof.stableZero().coverage() > 0.8, proof.stableZero().coverage() + " covered, " + where),
                () -> assertTrue(
                        proof.crestMiss().coverage() > 0.8, proof.crestMiss().coverage() + " covered, " + where),
                () -> assertTrue(proof.clicksRight() > 0.8, proof.clicksRight() + " right, " + where));
    }

    /** Simulated truth. */
    @Test
    void hardlyAnyZeroIsGivenWhileItCreeps() {
        HighSpotProof proof = HighSpotProof.of(SweepKind.CREEP, FIRST_SEED, FIRST_SEED + 30);
        assertTrue(proof.zerosInCreep() <= 3, proof.zerosInCreep() + " zeros from seed " + FIRST_SEED);
    }

    /** Simulated truth: one in a hundred may look still by chance. */
    @ParameterizedTest
    @EnumSource(
            value = RestKind.class,
            names = {"CREEP", "COARSE_CREEP"})
    void nothingIsCalledStableWhileItCreeps(RestKind kind) {
        RestProof proof = RestProof.of(kind, FIRST_SEED, FIRST_SEED + 40);
        assertTrue(
                proof.early() <= 1,
                proof.early() + " early, " + kind + " seeds " + FIRST_SEED + " to " + (FIRST_SEED + 39));
    }

    /** Simulated truth. */
    @ParameterizedTest
    @EnumSource(
            value = RestKind.class,
            names = {"STILL", "COARSE", "SETTLING", "DRIFT", "SLOW_DISPLAY", "HUMMING"})
    void stableIsAnnouncedSoonAndNotTooSoon(RestKind kind) {
        RestProof proof = RestProof.of(kind, FIRST_SEED, FIRST_SEED + 20);
        String where = kind + " seeds " + FIRST_SEED + " to " + (FIRST_SEED + 19);
        assertTrue(proof.never() <= 2, proof.never() + " never, " + where);
        assertEquals(0, proof.early(), "early, " + where);
        assertEquals(0, proof.disagreed(), "without a zero, " + where);
        assertTrue(proof.late_s(0.9) < 8, proof.late_s(0.9) + " s late, " + where);
    }

    /** Law: the steps of a slow display that rests are read to an end, whatever clicks they might be. */
    @Test
    void stepsOfASlowDisplayAtRestAreNoEndlessClicks() {
        RestProof proof = RestProof.of(RestKind.SLOW_DISPLAY, 31_000_000, 31_000_020);
        assertEquals(0, proof.early());
        assertEquals(0, proof.disagreed());
    }
}
