package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.journal.Journal;
import sweepbook.acquisition.time.Clock;

/** The commands trace, links and check. */
@Timeout(30)
class TraceCommandTest extends RunsCommands {
    @TempDir
    Path folder;

    /** One line on stderr says what is wrong, and nothing else. */
    private void assertRefused(int status, String part, String... args) {
        err.getBuffer().setLength(0);
        assertEquals(status, execute(args), err.toString());
        String line = err.toString()
                .lines()
                .filter(l -> l.startsWith("sweepbook: "))
                .findFirst()
                .orElse("none");
        assertTrue(line.contains(part), err.toString());
        assertFalse(err.toString().contains("\tat "), err.toString());
    }

    private String file(String name) {
        return folder.resolve(name).toString();
    }

    /** Data rows of a trace file. */
    private List<String> rows(String name) throws IOException {
        return Files.readAllLines(folder.resolve(name)).stream()
                .filter(line -> !line.startsWith("#"))
                .skip(1)
                .toList();
    }

    @Test
    void aReplayedTraceIsRecordedRowForRow() throws IOException {
        List<String> rows = List.of("0.000000,0.0005,0", "0.020000,-0.0010,1", "0.040001,12.0000,0");
        Files.writeString(
                folder.resolve("a.csv"),
                "# resolution_mm: 0.0127\ntime_s,reading_in,mark\n" + String.join("\n", rows) + "\n");
        assertEquals(0, execute("trace", "replay:" + file("a.csv"), "--out", file("b.csv")), err.toString());
        assertEquals(rows, rows("b.csv"));
        assertTrue(out.toString().startsWith(file("b.csv") + ": 3 readings in 0.0 s"), out.toString());
        assertFalse(Files.exists(folder.resolve("b.csv.notes.txt")));
    }

    @Test
    void secondsEndTheReplayByItsOwnTime() throws IOException {
        Files.writeString(folder.resolve("a.csv"), "time_s,reading_mm\n10,1\n11,2\n12,3\n13,4\n");
        assertEquals(0, execute("trace", "replay:" + file("a.csv"), "--out", file("b.csv"), "--seconds", "2"));
        assertEquals(3, rows("b.csv").size());
    }

    @Test
    void aLostLinkEndsWithItsOwnStatusAndKeepsWhatCame() throws Exception {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Thread device = new Thread(() -> {
                try (server;
                        Socket socket = server.accept()) {
                    socket.getOutputStream()
                            .write("+001.000\r\nnoise\r\n+002.000\r\n".getBytes(StandardCharsets.US_ASCII));
                } catch (IOException e) {
                    throw new AssertionError(e);
                }
            });
            device.start();
            assertRefused(
                    3,
                    "2 readings before it are in",
                    "trace",
                    "tcp:127.0.0.1:" + server.getLocalPort(),
                    "--profile",
                    "text-mm-stream",
                    "--patience",
                    "0.5",
                    "--out",
                    file("lost.csv"));
            device.join();
        }
        assertEquals(2, rows("lost.csv").size());
        String notes = Files.readString(folder.resolve("lost.csv.notes.txt"));
        assertTrue(notes.contains("dropped 'noise\\r\\n': does not fit the pattern"), notes);
        assertTrue(notes.contains("link lost"), notes);
    }

    @Test
    void wrongUseIsOneClearLine() throws IOException {
        Files.writeString(folder.resolve("kept.csv"), "time_s,reading_mm\n0,1\n");
        Files.writeString(folder.resolve("empty.csv"), "");
        Files.writeString(folder.resolve("noise.bytes"), "garbage\r\n".repeat(20));
        Files.writeString(folder.resolve("unit.bytes"), "000000000000 +01.00000 mm 0\n000000025000 +00.04000 in 0\n");
        Files.writeString(folder.resolve("bad.json"), "{\n  \"name\": \"x\",\n  \"descripton\": \"y\"\n}\n");
        String out = file("out.csv");
        assertRefused(2, "no such port", "trace", "serial:/dev/nothing", "--profile", "text-mm-stream", "--out", out);
        assertRefused(2, "is no link", "trace", "/dev/ttyS0", "--profile", "text-mm-stream", "--out", out);
        assertRefused(2, "needs a profile", "trace", "tcp:127.0.0.1:9", "--out", out);
        assertRefused(2, "no such profile", "trace", "console:", "--profile", "nothing", "--out", out);
        assertRefused(
                2,
                "line 1: field description: is missing",
                "trace",
                "console:",
                "--profile",
                file("bad.json"),
                "--out",
                out);
        assertRefused(2, "is a directory", "trace", "replay:" + folder, "--out", out);
        assertRefused(2, "is a directory", "trace", "replay:" + file("kept.csv"), "--out", folder.toString());
        assertRefused(2, "no such file", "trace", "replay:" + file("none.csv"), "--out", out);
        assertRefused(2, "no header", "trace", "replay:" + file("empty.csv"), "--out", out);
        assertRefused(2, "is there already", "trace", "replay:" + file("kept.csv"), "--out", file("kept.csv"));
        assertRefused(2, "--seconds", "trace", "replay:" + file("kept.csv"), "--out", out, "--seconds", "-1");
        assertRefused(
                2,
                "none of them was a reading",
                "trace",
                "replay:" + file("noise.bytes"),
                "--profile",
                "text-mm-stream",
                "--out",
                out);
        assertRefused(
                2,
                "from mm to in in mid-trace; set it back and record again; 1 readings",
                "trace",
                "replay:" + file("unit.bytes"),
                "--profile",
                "text-timed-stream",
                "--out",
                out);
        assertEquals("time_s,reading_mm\n0,1\n", Files.readString(folder.resolve("kept.csv")));
    }

    @Test
    void linksSaysWhatThereIsOrWhatToDo() {
        assertEquals(0, execute("links"));
        assertTrue(out.toString().contains("serial:") || out.toString().contains("Plug in"), out.toString());
    }

    @Test
    void checkNamesTheFirstLineThatIsNotAsItWasWritten() throws IOException {
        Path book = folder.resolve("set-up.book");
        try (Journal journal = Journal.create(book, Clock.system(), JsonNodeFactory.instance.objectNode())) {
            journal.append("position", JsonNodeFactory.instance.objectNode().put("typed", "12.345"));
            journal.append("position", JsonNodeFactory.instance.objectNode().put("typed", "67.890"));
        }
        assertEquals(0, execute("check", book.toString()));
        assertTrue(out.toString().startsWith(book + ": whole, 3 lines"), out.toString());
        Files.writeString(book, Files.readString(book).replace("12.345", "12.346"));
        out.getBuffer().setLength(0);
        assertEquals(1, execute("check", book.toString()));
        assertTrue(out.toString().startsWith(book + ", line 2: "), out.toString());
        assertRefused(2, "no such book", "check", file("none.book"));
        assertRefused(2, "is a directory", "check", folder.toString());
    }
}
