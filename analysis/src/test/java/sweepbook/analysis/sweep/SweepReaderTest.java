package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
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

    /** Published: GUM F.2.2.1, u = q / sqrt(12) of the digit that is written, and 95 % of an even distribution. */
    @ParameterizedTest
    @CsvSource({"mm, 1.500, 0.001", "mm, -0.02, 0.01", "in, 0.0123, 0.0001", "mm, 1.5000e0, 0.0001", "in, 2, 1"})
    void aConstantTraceHasTheZeroOfItsLastDigitAndNoHighSpot(String unit, String reading, double digit)
            throws IOException {
        String rows = IntStream.range(0, 200)
                .mapToObj(i -> i * 0.1 + "," + reading + "\n")
                .collect(Collectors.joining("", "time_s,reading_" + unit + "\n", ""));
        Trace trace = TraceCsv.read(new ByteArrayInputStream(rows.getBytes(StandardCharsets.US_ASCII)), "constant");
        SweepFindings findings = SweepReader.read(trace, SweepSettings.FROM_THE_TRACE);
        assertTrue(
                ((Finding.NotDetermined<Estimate>) findings.highSpot()).reason().contains("stands still"));
        double q_mm = LengthUnit.of(unit).toMm(digit);
        Estimate zero = findings.stableZero().asOptional().orElseThrow().level();
        assertEquals(LengthUnit.of(unit).toMm(Double.parseDouble(reading)), zero.value(), 1e-9);
        assertEquals(q_mm / Math.sqrt(12), zero.stdU(), 0.01 * q_mm);
        assertEquals(0.95 * q_mm / 2, zero.u95(), 0.01 * q_mm);
    }

    @Test
    void aConstantTraceOfAnUnknownStepHasNoZero() {
        double[] t = new double[200];
        double[] r = new double[200];
        for (int i = 0; i < t.length; i++) {
            t[i] = i * 0.1;
            r[i] = 0.12;
        }
        String reason = ((Finding.NotDetermined<StableZero>) read(t, r).stableZero()).reason();
        assertTrue(reason.contains("tell the display's resolution"), reason);
        SweepSettings told = new SweepSettings(Optional.empty(), 0.01);
        assertTrue(SweepReader.read(Trace.of(LengthUnit.MM, Double.NaN, t, r), told)
                .stableZero()
                .isFound());
    }

    /** Simulated truth: swept, jogged by clicks of the display's step, one a second or so; then it creeps on by as much, or stands. */
    @Test
    void aCreepFromDigitToDigitHasNoZeroAndARestAfterClicksHasOne() {
        int creeping = 0;
        int standing = 0;
        for (int seed = 0; seed < 200; seed++) {
            Random random = new Random(seed);
            double noise = 0.03 + 0.15 * random.nextDouble();
            double creep_per_s = 0.4 + 0.6 * random.nextDouble();
            double place = random.nextDouble();
            double[] t = new double[(29 + random.nextInt(8)) * 25 + random.nextInt(25)];
            double[] creeps = new double[t.length];
            double[] stands = new double[t.length];
            for (int i = 0; i < t.length; i++) {
                t[i] = i / 25.0;
                double beside = t[i] < 8 ? t[i] - 4 : Math.max(0, 12 - t[i]);
                double clicks = Math.floor(Math.max(0, Math.min(t[i], 25) - 14) / 1.1);
                double level = place - 4 * beside * beside + clicks + noise * random.nextGaussian();
                creeps[i] = 0.01 * Math.rint(level + creep_per_s * Math.max(0, t[i] - 25));
                stands[i] = 0.01 * Math.rint(level);
            }
            creeping += isZeroGiven(t, creeps) ? 1 : 0;
            standing += isZeroGiven(t, stands) ? 1 : 0;
        }
        assertTrue(creeping <= 2, creeping + " of 200");
        assertTrue(standing >= 198, standing + " of 200");
    }

    private static boolean isZeroGiven(double[] time_s, double[] reading_mm) {
        Trace trace = Trace.of(LengthUnit.MM, 0.01, time_s, reading_mm);
        SweepSettings told = new SweepSettings(Optional.of(Pressing.RAISES), 0.01);
        return SweepReader.read(trace, told).stableZero().isFound();
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
