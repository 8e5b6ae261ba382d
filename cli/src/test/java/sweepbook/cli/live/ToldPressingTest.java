package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.SweepTrial;
import sweepbook.simulator.trial.SweepTrials;

/** Simulated truth: a plan that has the sense of pressing wrong gives no number, one that has it right is believed. */
class ToldPressingTest {
    private static final List<SweepKind> KINDS = List.of(
            SweepKind.CLEAN, SweepKind.UNEVEN_HAND, SweepKind.SPIKES, SweepKind.FREE_START, SweepKind.EVERYTHING);
    private static final int SEEDS = 20;

    @Test
    void theRightSenseIsBelieved() {
        for (SweepKind kind : KINDS) {
            for (long seed = 4000; seed < 4000 + SEEDS; seed++) {
                SweepTrial trial = SweepTrials.of(kind, seed);
                SweepFindings findings = told(trial, trial.pressingSign());
                assertTrue(findings.highSpot().isFound(), kind + ", seed " + seed);
            }
        }
    }

    @Test
    void theWrongSenseIsNot() {
        int believed = 0;
        for (SweepKind kind : KINDS) {
            for (long seed = 4000; seed < 4000 + SEEDS; seed++) {
                SweepTrial trial = SweepTrials.of(kind, seed);
                believed += told(trial, -trial.pressingSign()).highSpot().isFound() ? 1 : 0;
            }
        }
        // Where a sweep is nearly as good a sweep upside down, nobody can tell; that is rare.
        assertTrue(believed <= KINDS.size() * SEEDS / 20, believed + " of " + KINDS.size() * SEEDS);
    }

    private static SweepFindings told(SweepTrial trial, int sign) {
        Pressing pressing = sign > 0 ? Pressing.RAISES : Pressing.LOWERS;
        return SweepReader.read(
                trial.trace(),
                new SweepSettings(Optional.of(pressing), trial.trace().resolution_mm()));
    }
}
