package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import sweepbook.cli.proof.Mistake;
import sweepbook.cli.proof.Slip;
import sweepbook.cli.proof.Trial;

class ProofOffsetsCommandTest extends RunsCommands {
    private static final int SETUPS = 200;
    private static final long FIRST_SEED = 500;

    /** Simulated truth, by the simulator's bodies: 93 to 97 % widened by three deviations of 200 counts. */
    @ParameterizedTest
    @MethodSource("sweepbook.cli.command.ProofOffsetsCommand#trials")
    void u95HoldsTheTruth(Trial kind) {
        int covered = 0;
        for (long seed = FIRST_SEED; seed < FIRST_SEED + SETUPS; seed++) {
            covered += kind.of(seed).isCovered() ? 1 : 0;
        }
        assertTrue(
                covered >= 0.88 * SETUPS && covered <= 0.995 * SETUPS,
                kind.words() + " covered in " + covered + " of " + SETUPS + " from seed " + FIRST_SEED);
    }

    /** Simulated truth. */
    @ParameterizedTest
    @EnumSource(Mistake.class)
    void aPlantedMistakeIsTold(Mistake mistake) {
        int told = 0;
        for (long seed = FIRST_SEED; seed < FIRST_SEED + SETUPS; seed++) {
            told += mistake.isNamed(seed) ? 1 : 0;
        }
        assertTrue(told >= 0.95 * SETUPS, mistake + " told in " + told + " of " + SETUPS + " from seed " + FIRST_SEED);
    }

    /** Simulated truth: a few jobs each; the command makes a hundred. */
    @ParameterizedTest
    @EnumSource(Slip.class)
    void aSlipIsToldBeforeTheTouchIsKept(Slip slip) throws Exception {
        for (long seed = FIRST_SEED; seed < FIRST_SEED + 2; seed++) {
            assertEquals(slip != Slip.NONE, slip.isTold(seed), slip + ", seed " + seed);
        }
    }

    @Test
    void aLineForEachKindAndMistake_andTheSeeds() {
        execute("proof", "offsets", "--seeds", "20", "--first", "7");
        List<String> lines = out.toString().lines().toList();
        assertEquals(
                ProofOffsetsCommand.trials().size() + Mistake.values().length + Slip.values().length + 8,
                lines.size(),
                out::toString);
        assertTrue(lines.get(1).startsWith("pin to pin "), out::toString);
        assertEquals("20 set-ups of each, seeds 7 to 26", lines.get(lines.size() - 1));
    }

    @Test
    void noSetUpsAreWrongUse() {
        assertEquals(ExitStatus.WRONG_USE, execute("proof", "offsets", "--seeds", "0"));
        assertTrue(err.toString().contains("--seeds 0: at least one trial is needed"), err::toString);
    }
}
