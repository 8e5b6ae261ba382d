package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Touches in which where the person stopped tells what was the crest: a pin of 8 mm and a ball of 2 mm together (10 mm), a
 * display of 0.001 mm, fifty readings a second with noise of half a step. The crest reads 1 mm.
 */
class StopTest {
    private static final double Q_mm = 0.001;
    private static final double CREST_mm = 1;

    /** Where the hand is, in millimetres off the crest, by times and places between which it moves like a cosine. */
    private static DoubleUnaryOperator way(double... timesAndPlaces) {
        return t -> {
            int i = 2;
            while (i < timesAndPlaces.length - 2 && timesAndPlaces[i] < t) {
                i += 2;
            }
            double part = (t - timesAndPlaces[i - 2]) / (timesAndPlaces[i] - timesAndPlaces[i - 2]);
            double done = (1 - Math.cos(Math.PI * Math.max(0, Math.min(1, part)))) / 2;
            return timesAndPlaces[i - 1] + done * (timesAndPlaces[i + 1] - timesAndPlaces[i - 1]);
        };
    }

    /** Jogged by so many clicks of 0.01 mm, one in 0.8 s. */
    private static DoubleUnaryOperator jog(double from_s, int clicks) {
        return t -> Math.signum(clicks)
                * 0.01
                * Math.max(0, Math.min(Math.abs(clicks), Math.floor((t - from_s) / 0.8 + 1)));
    }

    private static Trace trace(double seconds, DoubleUnaryOperator way, DoubleUnaryOperator jog, long seed) {
        Random noise = new Random(seed);
        Trace.Builder trace = new Trace.Builder(LengthUnit.MM, Q_mm);
        for (double t = 0; t < seconds; t += 0.02) {
            double off = way.applyAsDouble(t);
            double drop = 10 - Math.sqrt(100 - off * off);
            double reading = CREST_mm - drop + jog.applyAsDouble(t) + 0.5 * Q_mm * noise.nextGaussian();
            trace.add(t, Math.rint(reading / Q_mm) * Q_mm);
        }
        return trace.build();
    }

    private static SweepFindings findings(double seconds, DoubleUnaryOperator way, DoubleUnaryOperator jog, long seed) {
        return SweepReader.read(trace(seconds, way, jog, seed), new SweepSettings(Optional.empty(), Q_mm));
    }

    private static void holdsTheCrest(SweepFindings findings, double within_mm, String what) {
        Estimate crest = findings.highSpot().asOptional().orElseThrow(() -> new AssertionError(what + ": none"));
        assertEquals(CREST_mm, crest.value(), within_mm, () -> what + ": " + crest);
        // U95 misses one crest in twenty, twice of it hardly any.
        assertTrue(Math.abs(crest.value() - CREST_mm) <= 2 * crest.u95(), () -> what + ": " + crest);
    }

    /** Two turns on the flank before the only pass, and they agree. */
    @Test
    void turnsBelowTheStopAreNoCrests() {
        DoubleUnaryOperator way = way(0, -1, 1, -1, 2.5, -0.45, 4, -0.9, 5.5, -0.45, 6.5, -0.7, 9.5, 1, 11.5, 0, 14, 0);
        for (long seed = 1; seed <= 5; seed++) {
            holdsTheCrest(findings(24, way, jog(14, 6), seed), 0.001, "seed " + seed);
        }
    }

    /** Whoever begins there does not begin with a free plunger. */
    @Test
    void aSweepMayBeginOnTheCrest() {
        DoubleUnaryOperator way = way(0, 0, 2, 0, 4, 0.9, 7, -0.7, 9.5, 0, 12, 0);
        for (long seed = 1; seed <= 5; seed++) {
            SweepFindings findings = findings(22, way, jog(12, -5), seed);
            assertEquals(Optional.of(Pressing.RAISES), findings.pressing(), "seed " + seed);
            holdsTheCrest(findings, 0.001, "seed " + seed);
        }
    }

    /** A hand that rests where it turns goes on to the crest in one move; from the crest it jogs. */
    @Test
    void aRestAtATurnIsNoStop() {
        DoubleUnaryOperator way = way(0, -1, 1, -1, 5, 1, 6.2, 1, 9, 0, 12, 0);
        for (long seed = 1; seed <= 5; seed++) {
            holdsTheCrest(findings(22, way, jog(12, 4), seed), 0.001, "seed " + seed);
        }
    }

    /** By two steps behind the crest at most, and back by none: no noise tells that from a stand. */
    @Test
    void aCrestThatIsHardlyCrossedIsFoundAndNamed() {
        for (double beyond : new double[] {0.05, 0.1, 0.2}) {
            DoubleUnaryOperator way = way(0, -0.9, 2, -0.9, 4, beyond, 8, beyond);
            SweepFindings findings = findings(17, way, jog(8, 4), (long) (1000 * beyond));
            holdsTheCrest(findings, 0.0015, "beyond " + beyond);
            assertTrue(findings.warnings().stream().anyMatch(w -> w.startsWith("the crest was hardly crossed")));
        }
    }

    @Test
    void aFaceHasNoCrestToCross() {
        SweepSettings face =
                new SweepSettings(Optional.of(Pressing.RAISES), Q_mm, Double.NaN, LengthUnit.MM, Contour.FLAT);
        Trace pressed = trace(17, way(0, -0.9, 2, -0.9, 4, 0, 8, 0), jog(8, 4), 1);
        assertFalse(SweepReader.read(pressed, face).highSpot().isFound());
    }

    /** Nor has a jog that begins with the trace. */
    @Test
    void aJogIsNoCrossing() {
        assertFalse(findings(17, t -> 0, jog(1, 13), 1).highSpot().isFound());
    }

    /** What somebody calculates instead of measuring has neither noise nor steps. */
    @Test
    void readingsWithoutNoiseAreRead() {
        Trace.Builder trace = new Trace.Builder(LengthUnit.MM, Double.NaN);
        for (int i = 0; i < 1000; i++) {
            double t = i / 50.0;
            double off = t < 12 ? (t % 4) - 2 : 0;
            trace.add(t, 0.3 - 0.02 * Math.min(off * off / 2, 1));
        }
        SweepFindings findings = SweepReader.read(trace.build(), SweepSettings.FROM_THE_TRACE);
        assertEquals(0.3, findings.highSpot().asOptional().orElseThrow().value(), 1e-5);
    }
}
