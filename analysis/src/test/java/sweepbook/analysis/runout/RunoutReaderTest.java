package sweepbook.analysis.runout;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.runout.TurnedPart.Kind;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

class RunoutReaderTest {
    private static final int SEEDS = 8;

    /** Simulated truth: eccentricity near its Cramer-Rao bound, its high spot where it is, every turn counted. */
    @ParameterizedTest
    @EnumSource(
            value = Kind.class,
            names = {"EVEN_ONE_MARK", "NO_MARKS", "STATIONS", "SPIKES", "NOISE_2Q", "DRIFT"})
    void findsEccentricityNearItsBound(Kind kind) {
        double squares = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            TurnedPart part = new TurnedPart(kind, seed);
            Trace trace = part.trace();
            Finding<Runout> finding =
                    RunoutReader.read(trace, RunoutSettings.USUAL.withMarksPerTurn(part.marksPerTurn));
            Runout runout = finding.asOptional().orElseThrow(() -> new AssertionError(part + ": " + finding));
            assertEquals((int) Math.floor(part.turnedTurns + 1.0 / part.perTurn), runout.turns(), part + ": turns");
            double miss = (runout.eccentricity().value() - part.eccentricity_mm()) / part.bound_mm();
            squares += miss * miss;
            if (runout.highSpotAngle_deg() instanceof Finding.Found<Estimate> angle) {
                double off = Math.IEEEremainder(angle.value().value() - Math.toDegrees(part.highSpot_rad()), 360);
                assertTrue(Math.abs(off) < 1.5 + 2 * angle.value().u95(), part + ": high spot off by " + off);
            }
        }
        double rms = Math.sqrt(squares / SEEDS);
        assertTrue(rms < 2.2, kind + ", seeds 1 to " + SEEDS + ": " + rms + " times the bound");
    }
}
