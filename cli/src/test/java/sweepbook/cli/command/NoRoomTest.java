package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.BookFile;

/** Disks that are full, files that may not grow, folders that may not be written: one clear line, and what was kept is whole. */
@Timeout(60)
@EnabledOnOs(OS.LINUX)
class NoRoomTest extends RunsCommands {
    private static final long SEED = 6;

    @TempDir
    Path folder;

    /** What a process of its own said, and how it ended. */
    private record Ended(int status, String said) {}

    private static Ended run(List<String> around, String... args) throws Exception {
        List<String> command = new ArrayList<>(around);
        command.addAll(Victims.command(args));
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return new Ended(process.waitFor(), said);
    }

    /** No file may grow beyond so many kilobytes: what a quota does to a person. */
    private static List<String> limitedTo(int kilobytes) {
        return List.of("bash", "-c", "ulimit -f " + kilobytes + "; exec \"$0\" \"$@\"");
    }

    /** Whoever may override the rights of folders gives that up. */
    private static List<String> asAnybody() throws Exception {
        List<String> plain = List.of("setpriv", "--bounding-set", "-dac_override,-dac_read_search");
        List<String> trial = new ArrayList<>(plain);
        trial.add("true");
        try {
            boolean can =
                    new ProcessBuilder(trial).redirectErrorStream(true).start().waitFor() == 0;
            return can ? plain : List.of();
        } catch (IOException noSuchProgram) {
            return List.of();
        }
    }

    /** A folder whose rights forbid it, or where they forbid nothing to this person, one in which nobody makes files. */
    private Path readOnly() throws Exception {
        Path closed = Files.createDirectory(folder.resolve("closed"));
        assertTrue(closed.toFile().setWritable(false));
        return isWritable(closed) ? Path.of("/sys") : closed;
    }

    private static boolean isWritable(Path place) throws Exception {
        List<String> trial = new ArrayList<>(asAnybody());
        trial.addAll(List.of("sh", "-c", ": > \"$0\"", place.resolve("trial").toString()));
        return new ProcessBuilder(trial).redirectErrorStream(true).start().waitFor() == 0;
    }

    private static void assertOneLine(Ended ended, String... parts) {
        assertEquals(ExitStatus.WRONG_USE, ended.status(), ended.said());
        List<String> complaints = ended.said()
                .lines()
                .filter(line -> line.startsWith("sweepbook: "))
                .toList();
        assertEquals(1, complaints.size(), ended.said());
        for (String part : parts) {
            assertTrue(complaints.get(0).contains(part), complaints.get(0));
        }
        assertFalse(ended.said().contains("\tat "), ended.said());
    }

    @Test
    void aFullDiskEndsATraceWithOneLine() throws IOException {
        Path trace = RecordedJob.trace(folder, SEED);
        int status = execute("trace", "replay:" + trace, "--out", "/dev/full");
        assertOneLine(new Ended(status, err.toString()), "/dev/full: writing failed (No space left on device)");
    }

    @Test
    void aTraceThatMayNotGrowIsWholeUpToTheRowThatFoundNoRoom() throws Exception {
        Path trace = RecordedJob.trace(folder, SEED);
        Path out = folder.resolve("out.csv");
        Ended ended = run(limitedTo(50), "trace", "replay:" + trace, "--out", out.toString());
        Trace kept = TraceCsv.read(out);
        assertOneLine(ended, "writing failed (File too large)", "make room", "are in " + out);
        assertTrue(Files.size(out) <= 50 * 1024 && kept.size() > 100, kept.size() + " readings");
        Trace sent = TraceCsv.read(trace);
        for (int i = 0; i < kept.size(); i++) {
            assertEquals(sent.reading(i), kept.reading(i));
        }
    }

    @Test
    void notesThatFindNoRoomAreNamed() throws Exception {
        Path bytes = folder.resolve("noise.bytes");
        Files.writeString(bytes, ("no reading at all, " + "x".repeat(40) + "\r\n").repeat(2000) + "+001.000\r\n");
        Path out = folder.resolve("out.csv");
        Ended ended =
                run(limitedTo(1), "trace", "replay:" + bytes, "--profile", "text-mm-stream", "--out", out.toString());
        assertOneLine(ended, out + ".notes.txt: writing failed (File too large)");
    }

    @Test
    void aBookThatFindsNoRoomIsWholeAndTheSameCommandGoesOn() throws Exception {
        Path positions = Files.write(folder.resolve("positions"), RecordedJob.positions(SEED));
        Path book = folder.resolve("small.book");
        String[] measure = {
            "measure",
            RecordedJob.PLAN,
            "replay:" + RecordedJob.trace(folder, SEED),
            "--book",
            book.toString(),
            "--positions",
            positions.toString()
        };
        Ended ended = run(limitedTo(200), measure);
        assertOneLine(ended, book + ": writing failed (File too large)", "what was acknowledged before is safe");
        assertEquals(0, execute("check", book.toString()), out.toString());
        long keptBefore = kept(book);
        assertTrue(keptBefore > 0 && keptBefore < 8, keptBefore + " touches kept");
        assertEquals(0, execute(measure), err.toString());
        assertEquals(8, kept(book));
        assertEquals(0, execute("check", book.toString()), out.toString());
    }

    private static long kept(Path book) throws IOException {
        return BookFile.read(book).attempts().stream().filter(Attempt::isKept).count();
    }

    @Test
    void aFolderThatMayNotBeWrittenIsSaidSo() throws Exception {
        Path closed = readOnly();
        Path trace = RecordedJob.trace(folder, SEED);
        Ended recording = run(
                asAnybody(),
                "trace",
                "replay:" + trace,
                "--out",
                closed.resolve("a.csv").toString());
        assertOneLine(recording, closed.resolve("a.csv") + ": writing is not allowed there; choose another folder");
        Ended measuring = run(
                asAnybody(),
                "measure",
                RecordedJob.PLAN,
                "replay:" + trace,
                "--book",
                closed.resolve("a.book").toString());
        assertOneLine(measuring, closed.resolve("a.book") + ": writing is not allowed there");
        assertFalse(Files.exists(closed.resolve("a.csv")) || Files.exists(closed.resolve("a.book")));
    }
}
