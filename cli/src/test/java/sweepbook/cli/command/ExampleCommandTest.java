package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExampleCommandTest extends RunsCommands {
    @TempDir
    Path folder;

    private int run(String... args) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        return execute(args);
    }

    /** Simulated truth: what is told of an example is what another command finds in its file. */
    @Test
    void theTruthToldIsFoundInTheFile() throws Exception {
        String file = folder.resolve("sweep.csv").toString();
        assertEquals(0, run("example", "--sweep", "clean", "--seed", "5", "--out", file), err.toString());
        double truth = told("true high spot");
        assertEquals(0, run("highspot", "--json", file), err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertEquals(
                truth,
                found.get("highSpot").doubleValue(),
                found.get("resolution").doubleValue());

        String part = folder.resolve("part.csv").toString();
        assertEquals(0, run("example", "--part", "even-one-mark", "--seed", "5", "--out", part), err.toString());
        double eccentricity = told("true eccentricity");
        assertEquals(0, run("runout", "--json", part), err.toString());
        JsonNode turned = new ObjectMapper().readTree(out.toString());
        assertEquals(eccentricity, turned.get("eccentricity").doubleValue(), 0.0005);
    }

    @Test
    void aKindThatIsNoneIsAnsweredWithThoseThereAre() {
        Path file = folder.resolve("never.csv");
        assertEquals(2, run("example", "--sweep", "stations", "--out", file.toString()));
        assertTrue(err.toString().contains("is none of clean, one-pass, "), err.toString());
        assertFalse(Files.exists(file));
    }

    @Test
    void whereThereIsNoTruthNoneIsTold() {
        assertEquals(0, run("example", "--sweep", "creep", "--out", path("c.csv")));
        assertTrue(out.toString().contains("true stable zero  none"), out.toString());
        assertEquals(0, run("example", "--part", "even-no-marks", "--out", path("p.csv")));
        assertTrue(out.toString().contains("high spot angle   none"), out.toString());
    }

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    @Test
    void aFileThatIsThereIsNotWrittenOver() throws Exception {
        Path file = Files.writeString(folder.resolve("kept.csv"), "mine");
        assertEquals(2, run("example", "--sweep", "clean", "--out", file.toString()));
        assertEquals("mine", Files.readString(file));
    }

    private double told(String what) {
        String line = out.toString()
                .lines()
                .filter(l -> l.startsWith(what))
                .findFirst()
                .orElseThrow();
        return Double.parseDouble(line.substring(what.length()).strip().split(" ")[0]);
    }
}
