package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.link.PtyPair;

/** Turned parts read over real links: 0.030 mm eccentric, greatest 70 degrees after the mark, and an oval. */
@Timeout(60)
class RunoutLinkTest extends RunsCommands {
    private static final int A_TURN = 50;
    /** A turn by the clock, and how far before the mark it begins. */
    private static final double TURN_NS = 0.6e9;

    private static final double START = 0.2;

    @TempDir
    Path folder;

    private static double mm(double turned) {
        double t = 2 * Math.PI * turned;
        return 0.03 * Math.cos(t - Math.toRadians(70)) + 0.004 * Math.cos(2 * t);
    }

    /** With the device's own time and its second channel, the mark. */
    private static byte[] timed(int turns) {
        StringBuilder lines = new StringBuilder();
        for (int i = 0; i < turns * A_TURN + 20; i++) {
            double turned = (i - 10.0) / A_TURN;
            lines.append(String.format(
                    Locale.ROOT, "%012d %+09.5f mm %d\n", 50_000 * i, mm(turned), i % A_TURN == 10 ? 1 : 0));
        }
        return lines.toString().getBytes(StandardCharsets.US_ASCII);
    }

    private JsonNode found() throws IOException {
        return new ObjectMapper().readTree(out.toString());
    }

    private void assertFound(int turns) throws IOException {
        assertEquals(turns, found().get("turns").asInt(), out.toString());
        assertEquals(0.03, found().get("eccentricity").asDouble(), 3e-4);
        assertEquals(70, found().get("highSpotAngle_deg").asDouble(), 4);
        assertEquals(0.008, found().get("outOfRoundness").asDouble(), 1e-3);
    }

    /** Law: the part is the same over either link. */
    @Test
    void theMarkOfASecondChannelIsTakenFromTheWire() throws Exception {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            CompletableFuture<Socket> device = CompletableFuture.supplyAsync(() -> {
                try {
                    Socket socket = server.accept();
                    socket.getOutputStream().write(timed(3));
                    return socket;
                } catch (IOException e) {
                    throw new AssertionError(e);
                }
            });
            runout("tcp:127.0.0.1:" + server.getLocalPort(), "--profile", "text-timed-stream", "--seconds", "1");
            device.join().close();
        }
        assertFound(3);
    }

    @Test
    void aSerialPortIsReadLikeAnyLink() throws Exception {
        try (PtyPair pair = PtyPair.open(folder);
                OutputStream device = Files.newOutputStream(pair.theirs())) {
            device.write(timed(3));
            runout("serial:" + pair.ours(), "--profile", "text-timed-stream", "--seconds", "1");
        }
        assertFound(3);
    }

    /** Law: a recorded trace that is replayed keeps its angles. */
    @Test
    void aReplayKeepsTheAngles() throws IOException {
        StringBuilder csv = new StringBuilder("time_s,reading_mm,angle_deg\n");
        for (int i = 0; i < 72; i++) {
            csv.append(String.format(Locale.ROOT, "%d,%.5f,%d%n", i, mm(i / 72.0), 5 * i));
        }
        Path stations = Files.writeString(folder.resolve("stations.csv"), csv);
        runout("replay:" + stations);
        assertFound(1);
        assertEquals("stated angles", found().get("angleZero").asText());
        assertFalse(err.toString().contains("turn under power"), "nothing moves in a recording");
    }

    private void runout(String link, String... more) {
        String[] args = new String[more.length + 5];
        System.arraycopy(
                new String[] {
                    "runout", "--json", "--out", folder.resolve("recorded.csv").toString(), link
                },
                0,
                args,
                0,
                5);
        System.arraycopy(more, 0, args, 5, more.length);
        int status = execute(args);
        assertEquals(ExitStatus.DONE, status, err.toString());
    }

    /** A real keyboard's stream: Enter as the mark passes, and then angles; what is typed is what the figures count from. */
    @Test
    void enterMarksTheTurns() throws Exception {
        PipedOutputStream keys = new PipedOutputStream();
        withKeyboard(
                new PipedInputStream(keys), () -> overTcp(keys, CompletableFuture.completedFuture(null), "--mark-key"));
        assertTrue(err.toString().startsWith("! Let no blade or cutter turn under power"), err.toString());
        assertEquals("first mark", found().get("angleZero").asText());
        assertEquals(3, found().get("turns").asInt(), out.toString());
        assertEquals(0.03, found().get("eccentricity").asDouble(), 1e-3);
        assertEquals(70, found().get("highSpotAngle_deg").asDouble(), 25);
    }

    @Test
    void anglesAreTypedAtStations() throws Exception {
        StringBuilder typed = new StringBuilder();
        for (int station = 0; station < 12; station++) {
            typed.append(30 * station).append('\n');
        }
        TypedBefore keyboard = new TypedBefore(typed + "\n");
        withKeyboard(keyboard, () -> overTcp(null, keyboard.taken, "--typed-angles"));
        assertFound(1);
        assertEquals("stated angles", found().get("angleZero").asText());
    }

    /** Lines that are all typed beforehand; tells when the program has taken the last of them and asks for more. */
    private static final class TypedBefore extends ByteArrayInputStream {
        private final CompletableFuture<Void> taken = new CompletableFuture<>();

        TypedBefore(String lines) {
            super(lines.getBytes(StandardCharsets.US_ASCII));
        }

        @Override
        public int read(byte[] into, int from, int most) {
            int n = super.read(into, from, most);
            if (n < 0) {
                taken.complete(null);
            }
            return n;
        }
    }

    private interface Act {
        void run() throws Exception;
    }

    private static void withKeyboard(InputStream keyboard, Act act) throws Exception {
        InputStream before = System.in;
        System.setIn(keyboard);
        try {
            act.run();
        } finally {
            System.setIn(before);
        }
    }

    /**
     * A device that sends at an even pace once it may begin: turning, with a key press at each mark; or standing at each
     * station in turn.
     */
    private void overTcp(OutputStream keys, CompletableFuture<Void> mayBegin, String told) throws Exception {
        boolean turning = keys != null;
        CompletableFuture<Void> ended = new CompletableFuture<>();
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            CompletableFuture<Void> device = CompletableFuture.runAsync(() -> {
                try (Socket socket = server.accept()) {
                    mayBegin.join();
                    long start_ns = System.nanoTime();
                    double before = -START;
                    for (int i = 0; turning ? before < 3.2 : i < 121; i++) {
                        // The part turns by the clock, however late this thread is woken.
                        double turned = turning ? (System.nanoTime() - start_ns) / TURN_NS - START : i / 10 / 12.0;
                        socket.getOutputStream()
                                .write(String.format(Locale.ROOT, "%+08.3f\r\n", mm(turned))
                                        .getBytes(StandardCharsets.US_ASCII));
                        if (turning && Math.floor(turned) > Math.floor(before)) {
                            keys.write('\n');
                            keys.flush();
                        }
                        before = turned;
                        LockSupport.parkNanos(8_000_000);
                    }
                    ended.join();
                } catch (IOException e) {
                    throw new AssertionError(e);
                }
            });
            runout(
                    "tcp:127.0.0.1:" + server.getLocalPort(),
                    "--profile",
                    "text-mm-stream",
                    told,
                    "--seconds",
                    turning ? "2.4" : "20");
            ended.complete(null);
            device.join();
        }
    }

    @Test
    void theKeyboardCannotBeTheLinkToo() {
        assertEquals(
                ExitStatus.WRONG_USE,
                execute(
                        "trace",
                        "console:",
                        "--profile",
                        "text-mm-stream",
                        "--mark-key",
                        "--out",
                        folder.resolve("x.csv").toString()));
        assertTrue(err.toString().contains("keyboard"), err.toString());
    }
}
