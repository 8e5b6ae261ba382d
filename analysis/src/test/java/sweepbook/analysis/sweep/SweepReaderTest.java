package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

class SweepReaderTest {
    private static SweepFindings read(double[] time_s, double[] reading_mm) {
        return SweepReader.read(Trace.of(LengthUnit.MM, Double.NaN, time_s, reading_mm), SweepSettings.FROM_THE_TRACE);
    }

    /** Simulated truth. */
    @ParameterizedTest
    @EnumSource(
            value = HandSweep.Kind.class,
            names = {"CLEAN", "SPIKES", "LOST"})
    void findsTheCrestOfAHandSweep(HandSweep.Kind kind) {
        List<String> off = new ArrayList<>();
        for (long seed = 100; seed < 120; seed++) {
            HandSweep sweep = new HandSweep(kind, seed);
            SweepFindings findings =
                    SweepReader.read(sweep.trace, new SweepSettings(Optional.of(sweep.pressing), sweep.q_mm));
            double crest_mm = findings.highSpot().asOptional().orElseThrow().value();
            if (Math.abs(crest_mm - sweep.crest_mm) > Math.max(0.3 * sweep.q_mm, 4 * sweep.bound_mm)) {
                off.add(sweep.toString());
            }
        }
        assertEquals(List.of(), off);
    }

    /** Law: where nothing was jogged after the sweep, the reading at the final position on the crest is the high spot. */
    @Test
    void aTraceOfPassesAloneHasAHighSpotAndNoZero() {
        double[] t = new double[400];
        double[] r = new double[400];
        for (int i = 0; i < t.length; i++) {
            t[i] = i * 0.02;
            double x = 2 * Math.cos(t[i] * 1.5);
            r[i] = Math.round((0.3 - (10 - Math.sqrt(100 - x * x))) / 0.001) * 0.001;
        }
        SweepFindings findings = read(t, r);
        assertEquals(0.3, findings.highSpot().asOptional().orElseThrow().value(), 0.0005);
        assertFalse(findings.stableZero().isFound());
        assertEquals(findings.highSpot(), findings.readingAtZero());
    }

    @Test
    void aLoneConstantTraceHasAZeroAndNoHighSpot() {
        double[] t = new double[100];
        double[] r = new double[100];
        for (int i = 0; i < t.length; i++) {
            t[i] = i * 0.1;
            r[i] = 0.12;
        }
        SweepFindings findings = read(t, r);
        assertTrue(
                ((Finding.NotDetermined<Estimate>) findings.highSpot()).reason().contains("stands still"));
        assertEquals(
                0.12, findings.stableZero().asOptional().orElseThrow().level().value(), 1e-12);
    }

    @Test
    void noReadingsAtAllAreSaidToBeNone() {
        SweepFindings findings = read(new double[0], new double[0]);
        assertTrue(
                ((Finding.NotDetermined<Estimate>) findings.highSpot()).reason().contains("no readings"));
        assertFalse(findings.stableZero().isFound());
    }

    /** Law: asking in between changes nothing. */
    @Test
    void askingInBetweenLeavesTheFindingsAlone() {
        HandSweep sweep = new HandSweep(HandSweep.Kind.ALL, 3);
        SweepReader asked = new SweepReader(SweepSettings.FROM_THE_TRACE);
        for (int i = 0; i < sweep.trace.size(); i++) {
            asked.add(sweep.trace.time_s(i), sweep.trace.reading_mm(i));
            asked.now();
            if (i % 50 == 0) {
                asked.findings();
            }
        }
        assertEquals(
                SweepReader.read(sweep.trace, SweepSettings.FROM_THE_TRACE).toString(),
                asked.findings().toString());
    }
}
