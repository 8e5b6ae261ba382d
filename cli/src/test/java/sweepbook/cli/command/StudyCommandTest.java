package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StudyCommandTest extends RunsCommands {
    @TempDir
    Path folder;

    private int run(String csv, String... more) throws IOException {
        Path file = Files.writeString(folder.resolve("study.csv"), csv);
        return execute(
                more.length == 0
                        ? new String[] {"study", file.toString()}
                        : new String[] {"study", more[0], file.toString()});
    }

    /** Law: persons that differ by one and repeats that do not differ at all. */
    @Test
    void personsThatReadDifferentlyAreReproducibility() throws IOException {
        StringBuilder csv = new StringBuilder("piece,person,value\n");
        for (int piece = 0; piece < 5; piece++) {
            for (int person = 0; person < 2; person++) {
                for (int repeat = 0; repeat < 2; repeat++) {
                    csv.append("p" + piece + "," + (person == 0 ? "Ida" : "Jon") + ","
                            + (10 * piece + person + 0.001 * repeat) + "\n");
                }
            }
        }
        assertEquals(ExitStatus.DONE, run(csv.toString(), "--json"), err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertEquals(Math.sqrt(0.5), found.get("reproducibility").asDouble(), 1e-3);
        assertEquals(10 * Math.sqrt(2.5), found.get("betweenPieces").asDouble(), 1e-3);
        assertTrue(found.get("repeatability").asDouble() < 0.001);
        assertEquals(ExitStatus.DONE, run(csv.toString()), err.toString());
    }

    /** Law: where persons differ by no more than the repeats do, nothing is theirs, rounding of the sums included. */
    @Test
    void personsThatDifferByNoMoreThanChanceAddNothing() throws IOException {
        String even =
                """
                piece,person,value
                1,A,10.01
                1,A,10.02
                1,B,10.03
                1,B,10.02
                2,A,10.11
                2,A,10.12
                2,B,10.10
                2,B,10.12
                3,A,9.95
                3,A,9.96
                3,B,9.97
                3,B,9.96
                """;
        assertEquals(ExitStatus.DONE, run(even, "--json"), err.toString());
        assertEquals(
                0,
                new ObjectMapper()
                        .readTree(out.toString())
                        .get("reproducibility")
                        .asDouble());
    }

    @Test
    void repeatsThatNeverDifferTellNothing() throws IOException {
        String same =
                """
                piece,person,value
                1,A,1
                1,A,1
                1,B,1
                1,B,1
                2,A,2
                2,A,2
                2,B,2
                2,B,2
                """;
        assertEquals(ExitStatus.NOT_DETERMINED, run(same));
        assertTrue(err.toString().contains("nobody's repeats differ at all"), err.toString());
        assertEquals("", out.toString());
    }

    @Test
    void aBadRowIsNamed() throws IOException {
        assertEquals(ExitStatus.WRONG_USE, run("piece,person,value\na,b,c\n"));
        assertTrue(err.toString().contains("line 2: 'c' is not a number"), err.toString());
        assertEquals(1, err.toString().lines().count());
    }

    @Test
    void everyPersonMeasuresEveryPieceAsOften() throws IOException {
        assertEquals(ExitStatus.WRONG_USE, run("piece,person,value\na,I,1\na,I,2\na,J,1\n"));
        assertTrue(err.toString().contains("as often"), err.toString());
    }
}
