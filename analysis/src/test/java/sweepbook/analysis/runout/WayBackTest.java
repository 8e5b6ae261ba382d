package sweepbook.analysis.runout;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.angle.TurnMarks;
import sweepbook.analysis.runout.fit.Samples;

class WayBackTest {
    private static final double STEP_RAD = Math.PI / 6;

    /** A hand that goes on for two turns, or goes back from the given turn on; twelve marks. */
    private static Optional<String> read(long seed, double back_turn) {
        Random random = new Random(seed);
        double sway = 2 * Math.PI * random.nextDouble();
        double high = 2 * Math.PI * random.nextDouble();
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 0.001);
        double before = 0.1;
        for (int i = 0; i < 400; i++) {
            double way = 4 * Math.PI * i / 400 + 0.15 * (Math.sin(Math.PI * i / 80 + sway) - Math.sin(sway)) + 0.1;
            double back = 2 * Math.PI * back_turn;
            double angle = way > back ? 2 * back - way : way;
            double reading =
                    0.02 * Math.cos(angle - high) + 0.003 * Math.cos(3 * angle) + 0.0005 * random.nextGaussian();
            boolean mark = Math.floor(angle / STEP_RAD) != Math.floor(before / STEP_RAD);
            builder.add(new Reading(0.05 * i, Math.rint(1000 * reading) / 1000, mark));
            before = angle;
        }
        Trace trace = builder.build();
        TurnMarks marks =
                TurnMarks.of(trace, 12, MarkedReading.NEAREST).asOptional().orElseThrow();
        return new WayBack(new Samples(trace.times_s(), trace.readings_mm(), 0, 0.001), marks).objection();
    }

    /** Simulated truth: told wherever it is, from before the first turn is full on, and never of one that goes on. */
    @Test
    void readingsThatRunBackwardsAreTold() {
        for (long seed = 1; seed <= 40; seed++) {
            double back_turn = 0.4 + 0.03 * seed;
            assertTrue(read(seed, back_turn).isPresent(), "seed " + seed + ", back at " + back_turn);
            assertEquals(Optional.empty(), read(seed, 3), "seed " + seed);
        }
    }
}
