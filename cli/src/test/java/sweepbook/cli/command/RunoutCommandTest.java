package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class RunoutCommandTest {
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

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... args) {
        CommandLine commandLine = Sweepbook.commandLine();
        commandLine.setOut(new PrintWriter(out, true));
        commandLine.setErr(new PrintWriter(err, true));
        return commandLine.execute(args);
    }

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
        assertEquals(ExitStatus.DONE, run("runout", "--json", turned(4, true).toString()), err.toString());
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
        assertEquals(ExitStatus.DONE, run("runout", "--json", turned(3, false).toString()), out.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertTrue(found.get("highSpotAngle_deg").isNull());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
    }

    @Test
    void saysWhyLessThanATurnGivesNoFigures() throws IOException {
        assertEquals(
                ExitStatus.NOT_DETERMINED,
                run("runout", "--json", turned(0.7, false).toString()));
        JsonNode found = new ObjectMapper().readTree(out.toString());
        KEYS.forEach(key -> assertTrue(found.has(key), key));
        assertTrue(found.get("fim").isNull());
        assertTrue(found.get("reason").asText().contains("turn"), found.toString());
    }
}
