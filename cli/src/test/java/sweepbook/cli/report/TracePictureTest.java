package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.xml.sax.InputSource;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.Pass;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.SweepTrials;

class TracePictureTest {
    private static SweepFindings findings(Trace trace) {
        return SweepReader.read(trace, new SweepSettings(Optional.empty(), trace.resolution_mm()));
    }

    private static long count(String text, String regex) {
        return Pattern.compile(regex).matcher(text).results().count();
    }

    /** Whatever a sweep holds, its pictures are well-formed and every number in them is one. */
    @ParameterizedTest
    @EnumSource(SweepKind.class)
    void everyKindOfSweepCanBeDrawn(SweepKind kind) throws Exception {
        for (long seed = 1; seed <= 3; seed++) {
            Trace trace = SweepTrials.of(kind, seed).trace();
            SweepFindings findings = findings(trace);
            TracePicture picture = new TracePicture("t", trace, findings);
            String which = kind + ", seed " + seed;
            String both = picture.whole() + picture.crest().orElse("");
            assertEquals(findings.highSpot().isFound() ? 2 : 1, count(both, "<svg"), which);
            DocumentBuilderFactory.newInstance()
                    .newDocumentBuilder()
                    .parse(new InputSource(new StringReader("<both>" + both + "</both>")));
            assertFalse(both.contains("NaN") || both.contains("Infinity"), which);
            assertTrue(both.length() < 120_000, () -> which + ": " + both.length());
        }
    }

    /** Law: the level of the high spot is drawn where the axis has its value. */
    @Test
    void theHighSpotIsDrawnWhereTheAxisSaysItIs() {
        Trace trace = SweepTrials.of(SweepKind.CLEAN, 7).trace();
        SweepFindings findings = findings(trace);
        String svg = new TracePicture("t", trace, findings).whole();
        // Tick labels of the axis up are those that end left of the plot: their place and their value make the scale.
        double[][] ticks = Pattern.compile("<text x=\"[0-9.]+\" y=\"([0-9.]+)\" text-anchor=\"end\">(-?[0-9.]+)</text>")
                .matcher(svg)
                .results()
                .map(m -> new double[] {Double.parseDouble(m.group(1)) - 5, Double.parseDouble(m.group(2))})
                .toArray(double[][]::new);
        assertTrue(ticks.length >= 3, "ticks: " + ticks.length);
        double[] low = ticks[0];
        double[] high = ticks[ticks.length - 1];
        double crest = trace.unit()
                .fromMm(findings.highSpot().asOptional().orElseThrow().value());
        double expected_px = low[0] + (crest - low[1]) / (high[1] - low[1]) * (high[0] - low[0]);
        String colour = Ink.FIRST.colour();
        MatchResult level = Pattern.compile("stroke=\"" + colour + "\" [^>]*d=\"M[0-9.]+ ([0-9.]+)H")
                .matcher(svg)
                .results()
                .findFirst()
                .orElseThrow();
        assertEquals(expected_px, Double.parseDouble(level.group(1)), 0.3, "pixels from the top");
    }

    @Test
    void everyPassHasItsMarkAndThoseSetAsideAreCrossedOut() {
        Trace trace = SweepTrials.of(SweepKind.CLEAN, 3).trace();
        SweepFindings found = findings(trace);
        Pass first = found.passes().get(0);
        Pass aside = new Pass(
                first.from_s(),
                first.crest_s(),
                first.to_s(),
                first.crest_mm(),
                first.crestStdU_mm(),
                Optional.of("chip"));
        List<Pass> passes = new ArrayList<>(found.passes());
        passes.set(0, aside);
        SweepFindings findings = new SweepFindings(
                found.pressing(),
                found.resolution_mm(),
                found.noise_mm(),
                found.highSpot(),
                found.stableZero(),
                found.crestMiss(),
                found.readingAtZero(),
                passes,
                found.segments(),
                found.clicks(),
                found.warnings());
        String svg = new TracePicture("t", trace, findings).whole();
        assertEquals(1, count(svg, "d=\"M-6 -6L6 6M-6 6L6 -6\""));
        assertEquals(passes.size() - 1, count(svg, "d=\"M0 0L-5 -?10H5Z\""));
    }

    @Test
    void aSingleReadingIsAPictureToo() {
        Trace trace = Trace.of(LengthUnit.IN, Double.NaN, new double[] {12}, new double[] {0.254});
        String svg = new TracePicture("t", trace, findings(trace)).whole();
        assertTrue(svg.contains("reading, in"), svg);
        assertFalse(svg.contains("NaN"), svg);
    }

    /** A lost burst is a hole in the line, not a straight line that nobody read. */
    @Test
    void aHoleInTheTraceIsAHoleInTheLine() {
        int n = 400;
        double[] time_s = new double[n];
        double[] reading_mm = new double[n];
        for (int i = 0; i < n; i++) {
            time_s[i] = i * 0.05 + (i < 200 ? 0 : 6);
            reading_mm[i] = -0.2 + 0.001 * i;
        }
        Trace trace = Trace.of(LengthUnit.MM, 0.001, time_s, reading_mm);
        String svg = new TracePicture("t", trace, findings(trace)).whole();
        String line = Pattern.compile("d=\"([^\"]*)\" stroke-linejoin")
                .matcher(svg)
                .results()
                .findFirst()
                .orElseThrow()
                .group(1);
        assertEquals(2, count(line, "M"));
    }
}
