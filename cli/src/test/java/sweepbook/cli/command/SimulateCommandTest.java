package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SimulateCommandTest extends RunsCommands {
    private int run(String typed, String... args) {
        InputStream keyboard = System.in;
        System.setIn(new ByteArrayInputStream(typed.getBytes(StandardCharsets.UTF_8)));
        try {
            return execute(args);
        } finally {
            System.setIn(keyboard);
        }
    }

    @Test
    void tellsTheLinkAndLeaves() {
        assertEquals(0, run("q\n", "simulate", "--listen", "0"));
        assertTrue(err.toString().contains("tcp:localhost:"), err.toString());
        assertTrue(err.toString().contains("Enter: touch 1 of 8"), err.toString());
        assertEquals("", out.toString());
    }

    /** Whoever does as the simulator says measures its machine with the plan that is made for it. */
    @Test
    void whatItSaysToTypeIsACommandThatFits() {
        assertEquals(0, run("q\n", "simulate", "--listen", "0", "--scenario", "joinery-in-inches"));
        Matcher command = Pattern.compile(
                        "To measure it: sweepbook (measure (\\S+) tcp:localhost:\\d+ --profile (\\S+) --book) FILE")
                .matcher(err.toString());
        assertTrue(command.find(), err.toString());
        assertEquals("joinery-head-inch", command.group(2));
        assertEquals(2, run("", (command.group(1) + " /nowhere/at/all/a.book").split(" ")));
        assertTrue(err.toString().contains("nobody listens there"), err.toString());
    }

    @Test
    void aPortThatIsTakenIsNamed() throws Exception {
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            assertEquals(2, run("", "simulate", "--listen", "" + taken.getLocalPort()));
            assertTrue(err.toString().contains("port " + taken.getLocalPort()), err.toString());
            assertEquals(1, err.toString().lines().count());
        }
    }

    @Test
    void aDeviceThatIsNotThereIsNamed() {
        assertEquals(2, run("", "simulate", "--device", "/nowhere/at/all"));
        assertTrue(err.toString().startsWith("sweepbook: /nowhere/at/all: is no device"), err.toString());
    }

    @Test
    void aFolderOrAFileIsNoDevice(@TempDir Path folder) throws Exception {
        Path file = Files.createFile(folder.resolve("file"));
        for (Path path : List.of(folder, file)) {
            assertEquals(2, run("", "simulate", "--device", path.toString()));
            assertTrue(err.toString().contains(path + ": is no device"), err.toString());
        }
        assertEquals(0, Files.size(file));
    }

    /** A profile of somebody's own may say how lines are read, and not how they are written. */
    @Test
    void linesThatTheProfileWouldNotReadAreNotSent(@TempDir Path folder) throws Exception {
        Path profile = Files.writeString(
                folder.resolve("own.json"),
                """
                {
                  "name": "own-lines",
                  "description": "an R in front, an exclamation mark behind",
                  "line": {"speed_baud": 9600, "dataBits": 8, "parity": "none", "stopBits": 1, "dtr": true, "rts": true},
                  "units": [{"unit": "mm", "resolution": 0.001}],
                  "text": {"terminator": "\\r\\n", "pattern": "R(?<reading>[+-]\\\\d{2}\\\\.\\\\d{3})!"}
                }
                """);
        assertEquals(2, run("q\n", "simulate", "--listen", "0", "--profile", profile.toString()));
        assertTrue(err.toString().contains("say in its template how a line is written"), err.toString());
        String pattern = "\"pattern\"";
        Files.writeString(
                profile,
                Files.readString(profile).replace(pattern, "\"template\": \"R{reading:%+07.3f}!\", " + pattern));
        assertEquals(0, run("q\n", "simulate", "--listen", "0", "--profile", profile.toString()), err.toString());
    }

    @Test
    void fastNeedsFramesWithTheTime() {
        assertEquals(2, run("", "simulate", "--listen", "0", "--fast", "--profile", "text-mm-stream"));
        assertTrue(err.toString().contains("carry no time"), err.toString());
    }
}
