package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Mistakes of a person are answered in a person's words, on one line. */
class FaultsTest extends RunsCommands {
    @TempDir
    Path folder;

    private void assertAnswer(String expected) {
        assertEquals("sweepbook: " + expected + System.lineSeparator(), err.toString());
    }

    @Test
    void nothingTyped() {
        assertEquals(ExitStatus.WRONG_USE, execute());
        assertAnswer("no command is named (see 'sweepbook --help')");
    }

    @Test
    void aMisspeltOptionIsAnsweredWithTheOneThatIsMeant() {
        assertEquals(ExitStatus.WRONG_USE, execute("demo", "--seeds", "3"));
        assertAnswer("'--seeds' is not known here; did you mean --seed? (see 'sweepbook demo --help')");
    }

    @Test
    void aWordForANumber() {
        assertEquals(ExitStatus.WRONG_USE, execute("demo", "--seed", "x"));
        assertAnswer("Invalid value for option '--seed': 'x' is not a whole number (see 'sweepbook demo --help')");
    }

    @Test
    void aWordThatIsNoneOfAFew() {
        assertEquals(ExitStatus.WRONG_USE, execute("simulate", "--listen", "0", "--scenario", "x"));
        assertAnswer("Invalid value for option '--scenario': 'x' is none of joinery, joinery-in-inches"
                + " (see 'sweepbook simulate --help')");
    }

    @Test
    void helpInFrontOfACommandIsThatBehindIt() {
        assertEquals(ExitStatus.DONE, execute("plan", "check", "--help"));
        String behind = out.toString();
        out.getBuffer().setLength(0);
        assertEquals(ExitStatus.DONE, execute("help", "plan", "check"));
        assertEquals(behind, out.toString());
        assertEquals(ExitStatus.WRONG_USE, execute("help", "x"));
        assertAnswer("'x' is no command; 'sweepbook --help' names them");
    }

    @Test
    void aPlanThatIsNotWhole() throws Exception {
        Path file = Files.writeString(folder.resolve("p.json"), "{");
        assertEquals(ExitStatus.WRONG_USE, run("plan", "check", file));
        assertAnswer(file + ", line 1: not JSON: Unexpected end-of-input: expected close marker for Object");
    }

    @Test
    void aFolderForAFile() {
        assertEquals(ExitStatus.WRONG_USE, run("study", folder));
        assertAnswer(folder + ": is a directory; name a file of measurements (CSV)");
    }

    @Test
    void aFileForAFolder() throws Exception {
        Path file = Files.createFile(folder.resolve("file"));
        assertEquals(ExitStatus.WRONG_USE, run("demo", "--folder", file));
        assertAnswer(file + ": is there already; choose another name");
    }

    /** Escape sequences of a file that is no trace would steer the terminal. */
    @Test
    void whatIsQuotedOfAFileDoesNotSteerTheTerminal() throws Exception {
        Path file = Files.writeString(folder.resolve("t.csv"), "time_s,reading_mm\n0,\u001b[2J\u0007\n");
        assertEquals(ExitStatus.WRONG_USE, run("highspot", file));
        assertAnswer(file + ", line 2: '?[2J?' in column reading_mm is no number with a decimal point; correct or"
                + " delete the row");
    }

    @Test
    void aReadingBeyondAllIndicators() throws Exception {
        Path file = Files.writeString(folder.resolve("t.csv"), "time_s,reading_mm\n0,1e300\n");
        assertEquals(ExitStatus.WRONG_USE, run("report", file));
        assertAnswer(file + ", line 2: its reading is out of all bounds; correct or delete the row");
    }

    @Test
    void aTraceForABook() throws Exception {
        Path file = Files.writeString(folder.resolve("t.csv"), "time_s,reading_mm\n0,1\n");
        assertEquals(ExitStatus.WRONG_USE, run("offsets", file));
        assertAnswer(file + ", line 1: is too short to be a line of a journal; is it a book at all?");
    }
}
