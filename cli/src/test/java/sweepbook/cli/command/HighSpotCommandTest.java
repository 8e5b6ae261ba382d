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

class HighSpotCommandTest extends RunsCommands {
    private static final List<String> KEYS = List.of(
            "file",
            "unit",
            "resolution",
            "highSpot",
            "highSpotStdU",
            "highSpotU95",
            "stableZero",
            "stableZeroStdU",
            "stableZeroU95",
            "zeroFrom_s",
            "zeroTo_s",
            "crestMiss",
            "passes",
            "clicks",
            "warnings");

    @TempDir
    Path folder;

    /** Three passes over a 12 mm round and a stop on the crest, which lies at 0.0207 in. */
    private Path sweepInInches() throws IOException {
        StringBuilder csv = new StringBuilder("# a sweep\ntime_s,reading_in\n");
        for (int i = 0; i < 500; i++) {
            double t = i * 0.02;
            double x_mm = t < 5.5 * Math.PI / 3 ? 1.5 * Math.cos(3 * t) : 0;
            double in = 0.0207 - (12 - Math.sqrt(144 - x_mm * x_mm)) / 25.4;
            csv.append(String.format(Locale.ROOT, "%.3f,%.5f%n", t, Math.round(in / 5e-5) * 5e-5));
        }
        return Files.writeString(folder.resolve("sweep.csv"), csv);
    }

    private Path flat() throws IOException {
        StringBuilder csv = new StringBuilder("time_s,reading_mm\n");
        for (int i = 0; i < 50; i++) {
            csv.append(i * 0.1).append(",0.25\n");
        }
        return Files.writeString(folder.resolve("flat.csv"), csv);
    }

    /** Simulated truth. */
    @Test
    void jsonHasTheKeysOfTheContractInTheUnitOfTheTrace() throws IOException {
        assertEquals(0, execute("highspot", "--json", sweepInInches().toString()), err::toString);
        JsonNode object = new ObjectMapper().readTree(out.toString());
        List<String> keys = new ArrayList<>();
        object.fieldNames().forEachRemaining(keys::add);
        assertEquals(KEYS, keys);
        assertEquals("in", object.get("unit").asText());
        assertEquals(5e-5, object.get("resolution").asDouble(), 1e-9);
        assertEquals(0.0207, object.get("highSpot").asDouble(), 2e-5);
        assertEquals(0.0207, object.get("stableZero").asDouble(), 5e-5);
        assertTrue(object.get("highSpotU95").asDouble()
                > object.get("highSpotStdU").asDouble());
        assertEquals(5, object.get("passes").asInt());
        assertEquals(0, object.get("clicks").asInt());
    }

    @Test
    void whatIsNotDeterminedIsNullWithAReasonAndExitStatusOne() throws IOException {
        assertEquals(1, execute("highspot", "--json", flat().toString()));
        JsonNode object = new ObjectMapper().readTree(out.toString());
        assertTrue(object.get("highSpot").isNull());
        assertTrue(object.get("reason").asText().contains("sweep it past"));
        assertEquals(0.25, object.get("stableZero").asDouble(), 1e-9);
    }

    @Test
    void severalFilesGiveOneLineEachInTheirOrder() throws IOException {
        assertEquals(
                1,
                execute("highspot", "--json", flat().toString(), sweepInInches().toString()));
        String[] lines = out.toString().strip().split("\\R");
        assertEquals(2, lines.length);
        assertTrue(lines[0].contains("flat.csv") && lines[1].contains("sweep.csv"));
    }

    @Test
    void aPersonReadsATable() throws IOException {
        assertEquals(0, execute("highspot", sweepInInches().toString()));
        assertTrue(out.toString().contains("high spot        0.0207"), out::toString);
        assertTrue(out.toString().contains("raises the reading"), out::toString);
    }

    @Test
    void anUnreadableFileIsOneLineAndExitStatusTwo() {
        assertEquals(2, execute("highspot", folder.resolve("none.csv").toString()));
        assertEquals(1, err.toString().strip().split("\\R").length);
        assertTrue(err.toString().contains("none.csv"));
    }

    @Test
    void anUnknownPressingIsWrongUse() throws IOException {
        assertEquals(2, execute("highspot", "--pressing", "sideways", flat().toString()));
        assertEquals(1, err.toString().strip().split("\\R").length);
    }
}
