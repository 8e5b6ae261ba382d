package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

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
        assertTrue(err.toString().startsWith("sweepbook: /nowhere/at/all: is not there"), err.toString());
    }

    @Test
    void fastNeedsFramesWithTheTime() {
        assertEquals(2, run("", "simulate", "--listen", "0", "--fast", "--profile", "text-mm-stream"));
        assertTrue(err.toString().contains("carry no time"), err.toString());
    }
}
