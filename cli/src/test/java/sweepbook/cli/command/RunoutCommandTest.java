package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RunoutCommandTest extends RunsCommands {
    private static final List<String> KEYS = List.of(
            "file",
            "unit",
            "turns",
            "fim",
            "fimU95",
            "eccentricity",
            "eccentricityU95",
            "highSpotAngle_deg",
            "outOfRoundness",
            "outOfRoundnessMethod",
            "harmonics",
            "turnRepeatability",
            "warnings");

    @TempDir
    Path folder;

    /** Turns at 100 readings each with 0.002 in eccentricity, greatest 70 degrees after the mark, and an oval. */
    private Path turned(double turns, boolean marked) throws IOException {
        StringBuilder csv = new StringBuilder(marked ? "time_s,reading_in,mark\n" : "time_s,reading_in\n");
        for (int i = 0; i < 100 * turns; i++) {
            double t = 2 * Math.PI * (i - 30) / 100;
            double in = 0.01 + 0.002 * Math.cos(t - Math.toRadians(70)) + 0.0003 * Math.cos(2 * t);
            csv.append(String.format(Locale.ROOT, "%.2f,%.5f", i * 0.05, Math.round(in / 5e-5) * 5e-5));
            csv.append(marked ? (i % 100 == 30 ? ",1\n" : ",0\n") : "\n");
        }
        return Files.writeString(folder.resolve("turned.csv"), csv);
    }

    @Test
    void tellsTheFiguresInTheTracesUnit() throws IOException {
        assertEquals(
                ExitStatus.DONE, execute("runout", "--json", turned(4, true).toString()), err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        KEYS.forEach(key -> assertTrue(found.has(key), key));
        assertEquals("in", found.get("unit").asText());
        assertEquals(4, found.get("turns").asInt());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
        assertEquals(70, found.get("highSpotAngle_deg").asDouble(), 1);
        assertEquals(0.0006, found.get("outOfRoundness").asDouble(), 2.5e-5);
        JsonNode second = found.get("harmonics").get(1);
        assertEquals(2, second.get("upr").asInt());
        assertEquals(0.0003, second.get("amplitude").asDouble(), 1e-5);
    }

    @Test
    void hasNoAngleWithoutMarks() throws IOException {
        assertEquals(
                ExitStatus.DONE, execute("runout", "--json", turned(3, false).toString()), out.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertTrue(found.get("highSpotAngle_deg").isNull());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
    }

    @Test
    void saysWhyLessThanATurnGivesNoFigures() throws IOException {
        assertEquals(
                ExitStatus.NOT_DETERMINED,
                execute("runout", "--json", turned(0.7, false).toString()));
        JsonNode found = new ObjectMapper().readTree(out.toString());
        KEYS.forEach(key -> assertTrue(found.has(key), key));
        assertTrue(found.get("fim").isNull());
        assertTrue(found.get("reason").asText().contains("turn"), found.toString());
    }

    @Test
    void aFolderBecomesATableWithCapability() throws IOException {
        for (int k = 0; k < 4; k++) {
            Files.copy(turned(3 + 0.3 * k, true), folder.resolve("=part" + k + ".csv"));
        }
        Files.delete(folder.resolve("turned.csv"));
        assertEquals(
                ExitStatus.DONE, execute("runout", "--csv", "--fim-limit", "0.006", folder.toString()), err.toString());
        List<String> lines = out.toString().lines().toList();
        assertEquals(5, lines.size());
        assertTrue(lines.get(1).contains("conforms"), lines.get(1));
        assertTrue(err.toString().contains("Cpk"), err.toString());
    }

    @Test
    void noCellOfTheTableIsTakenForAFormula() {
        assertEquals("\"'=1+1\"", RunoutCsv.text("=1+1"));
        assertEquals("\"'@a \"\"b\"\"\"", RunoutCsv.text("@a \"b\""));
        assertEquals("\"'-1 mm\"", RunoutCsv.text("-1 mm"));
        assertEquals("\"plain, words\"", RunoutCsv.text("plain, words"));
    }

    @Test
    void thePageHasThreePictures() throws IOException {
        Path page = folder.resolve("page.html");
        assertEquals(
                ExitStatus.DONE,
                execute("runout", "--report", page.toString(), turned(4, true).toString()),
                err.toString());
        String html = Files.readString(page);
        assertEquals(3, html.split("<svg", -1).length - 1);
        for (String picture : List.of("Polar picture", "Unrolled picture", "Harmonic picture")) {
            assertTrue(html.contains(picture), picture);
        }
        assertTrue(!html.contains("http-equiv") && !html.contains("<script"), "self-contained");
    }

    @Test
    void aLinkIsRecordedFirst() throws IOException {
        Path again = folder.resolve("again.csv");
        assertEquals(
                ExitStatus.DONE,
                execute("runout", "--json", "--out", again.toString(), "replay:" + turned(4, true)),
                err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertEquals(again.toString(), found.get("file").asText());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
        assertTrue(Files.exists(again));
    }

    @Test
    void wrongUseIsOneLine() throws IOException {
        assertEquals(
                ExitStatus.WRONG_USE,
                execute("runout", "--circle", "round", turned(3, true).toString()));
        assertEquals(1, err.toString().lines().count(), err.toString());
        assertEquals(
                ExitStatus.WRONG_USE,
                execute("runout", folder.resolve("none.csv").toString()));
        assertEquals(ExitStatus.WRONG_USE, execute("runout", "tcp:localhost:1"));
    }

    /** Law: an eccentricity that grows evenly along the shaft is a lean. */
    @Test
    void placesAlongAShaftGiveItsLean() throws IOException {
        List<String> args = new ArrayList<>(List.of("runout", "--along", "0,100,200"));
        for (int k = 0; k < 3; k++) {
            StringBuilder csv = new StringBuilder("time_s,reading_mm,mark\n");
            for (int i = 0; i < 400; i++) {
                double mm = 0.02 * (k + 1) * Math.cos(2 * Math.PI * i / 100 - 1);
                csv.append(String.format(Locale.ROOT, "%.2f,%.4f,%d%n", 0.05 * i, mm, i % 100 == 0 ? 1 : 0));
            }
            args.add(Files.writeString(folder.resolve("at" + k + ".csv"), csv).toString());
        }
        assertEquals(ExitStatus.DONE, execute(args.toArray(String[]::new)), err.toString());
        assertTrue(out.toString().contains("leans by 0.200"), out.toString());
        assertTrue(out.toString().contains("towards 57 degrees"), out.toString());
    }

    /** Law: with a spindle that runs true both runs are the part. */
    @Test
    void twoRunsOfAReversalTellPartFromSpindle() throws IOException {
        String run = turned(4, true).toString();
        assertEquals(ExitStatus.DONE, execute("runout", "--reversal", run, run), err.toString());
        assertTrue(out.toString().contains("spindle alone, peak to valley: 0.000000 in"), out.toString());
        assertEquals(ExitStatus.WRONG_USE, execute("runout", "--reversal", run));
    }

    @Test
    void aLimitNeedsOneUnit() throws IOException {
        Path mm = Files.writeString(
                folder.resolve("mm.csv"), Files.readString(turned(4, true)).replace("reading_in", "reading_mm"));
        assertEquals(
                ExitStatus.WRONG_USE,
                execute(
                        "runout",
                        "--fim-limit",
                        "1",
                        mm.toString(),
                        folder.resolve("turned.csv").toString()));
        assertTrue(err.toString().contains("unit"), err.toString());
    }
}
