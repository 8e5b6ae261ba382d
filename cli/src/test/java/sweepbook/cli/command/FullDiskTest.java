package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookFile;

/** The running program where the system takes no more bytes: a limit on the size of files stands for quota and full disk. */
@Timeout(60)
@EnabledOnOs({OS.LINUX, OS.MAC})
class FullDiskTest {
    private static final int LIMIT_KB = 40;

    @TempDir
    Path folder;

    private Path recorded;

    private void record() throws IOException {
        recorded = folder.resolve("recorded.csv");
        Trace.Builder trace = new Trace.Builder(LengthUnit.MM, 0.001);
        for (int i = 0; i < 20_000; i++) {
            trace.add(i / 40.0, i % 7 / 1000.0);
        }
        TraceCsvWriter.write(recorded, trace.build());
    }

    @Test
    void aTraceEndsWithAClearLineAndWholeRows() throws Exception {
        record();
        Path out = folder.resolve("out.csv");
        String said = refused("trace", "replay:" + recorded, "--out", out.toString());
        assertTrue(said.contains(out + ": writing failed (File too large); the rows before are whole"), said);
        Trace kept = TraceCsv.read(out);
        assertTrue(kept.size() > 1000, kept.size() + " rows");
        assertEquals(999 / 40.0, kept.time_s(999));
    }

    @Test
    void aMeasurementEndsWithAClearLineAndAWholeBook() throws Exception {
        record();
        Path file = folder.resolve("job.book");
        String said = refused("measure", "joinery-head", "replay:" + recorded, "--book", file.toString());
        assertTrue(
                said.contains(file + ": writing failed (File too large); what was acknowledged before is safe"), said);
        assertEquals(0, JournalCheck.of(file).tornBytes());
        Book book = BookFile.read(file);
        assertTrue(book.attempts().get(0).trace().size() > 100);
    }

    /** Runs under the limit, with Enter for whoever asks; what was said. */
    private static String refused(String... args) throws Exception {
        List<String> command = Victims.command(args);
        command.addAll(0, List.of("bash", "-c", "ulimit -f " + LIMIT_KB + "; exec \"$@\"", "limited"));
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        process.getOutputStream().write('\n');
        process.getOutputStream().flush();
        String said = new String(process.getInputStream().readAllBytes());
        assertEquals(ExitStatus.WRONG_USE, process.waitFor(), said);
        assertEquals(
                1, said.lines().filter(line -> line.startsWith("sweepbook: ")).count(), said);
        return said;
    }
}
