package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.SweepTrials;

class ReportCommandTest extends RunsCommands {
    @TempDir
    private Path folder;

    private Path trace() throws Exception {
        Path csv = folder.resolve("sweep.csv");
        TraceCsvWriter.write(csv, SweepTrials.of(SweepKind.CLEAN, 4).trace());
        return csv;
    }

    private Path book() throws Exception {
        Path file = folder.resolve("router.book");
        BookEvent.Begun begun = new BookEvent.Begun("1", Plans.text("joinery-head"), "text-mm-stream", "", "");
        BookFile.begin(file, Clock.system(), begun).close();
        return file;
    }

    @Test
    void aBookBecomesAPageBesideItWithItsHash() throws Exception {
        Path file = book();
        assertEquals(ExitStatus.NOT_DETERMINED, run("report", file), "nothing has been measured yet");
        Path page = folder.resolve("router.html");
        assertEquals(page + System.lineSeparator(), out.toString());
        assertTrue(Files.readString(page).contains(JournalCheck.of(file).hash()));
    }

    @Test
    void aTraceBecomesAPageBesideIt() throws Exception {
        assertEquals(ExitStatus.DONE, run("report", trace()), err::toString);
        assertTrue(Files.readString(folder.resolve("sweep.html")).contains("<svg"));
    }

    @Test
    void anOldPageIsReplacedAndNothingElseIsLeft() throws Exception {
        Path csv = trace();
        Path page = folder.resolve("page.html");
        Files.writeString(page, "<!DOCTYPE html>an old page");
        assertEquals(ExitStatus.DONE, run("report", csv, "--out", page), err::toString);
        String written = Files.readString(page);
        assertTrue(written.startsWith("<!DOCTYPE html>") && !written.contains("an old page"), written);
        try (Stream<Path> files = Files.list(folder)) {
            assertEquals(
                    List.of("page.html", "sweep.csv"),
                    files.map(f -> f.getFileName().toString()).sorted().toList());
        }
    }

    @Test
    void thePageNeverTakesThePlaceOfItsSource() throws Exception {
        Path csv = trace();
        byte[] before = Files.readAllBytes(csv);
        assertEquals(ExitStatus.WRONG_USE, run("report", csv, "--out", csv));
        assertEquals(
                "sweepbook: " + csv + ": is what is to be reported; name another file with --out"
                        + System.lineSeparator(),
                err.toString());
        assertEquals(-1, Arrays.mismatch(before, Files.readAllBytes(csv)));
    }

    @Test
    void whatIsNotThereIsSaidInOneLine() {
        Path missing = folder.resolve("none.book");
        assertEquals(ExitStatus.WRONG_USE, run("report", missing));
        assertEquals(
                "sweepbook: " + missing + ": no such book or trace file; check the name" + System.lineSeparator(),
                err.toString());
    }

    @Test
    void aFolderThatIsNotThereIsSaidInOneLine() throws Exception {
        Path page = folder.resolve("none").resolve("page.html");
        assertEquals(ExitStatus.WRONG_USE, run("report", trace(), "--out", page));
        assertEquals(
                "sweepbook: " + page + ": its folder does not exist; make the folder first" + System.lineSeparator(),
                err.toString());
    }

    @Test
    void aBookThatWasTamperedWithIsNotReported() throws Exception {
        Path file = book();
        Files.writeString(file, Files.readString(file).replace("BH-2-0417", "BH-2-0418"));
        assertEquals(ExitStatus.WRONG_USE, run("report", file));
        assertTrue(err.toString().contains(file + ", line 2: "), err::toString);
    }
}
