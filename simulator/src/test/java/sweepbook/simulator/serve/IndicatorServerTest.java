package sweepbook.simulator.serve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.link.PtyPair;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

@Timeout(60)
class IndicatorServerTest {
    private static final IndicatorProfile TIMED = Profiles.bundled("text-timed-stream");
    private static final long SEED = 21;

    /** Law: what the client decodes is, to the bit, what the virtual indicator read. */
    @Test
    void tcpCarriesEveryReadingOfATouch() throws Exception {
        try (IndicatorServer server = onLoopback(TIMED, Pace.AS_FAST_AS_THE_LINK);
                Socket socket = connected(server)) {
            VirtualTouch touch = server.touch(JoineryScenario.SWIVEL_TO_SPINDLE, 0);
            assertSame(
                    touch.trace(),
                    new Client(TIMED, socket.getInputStream())
                            .readings(touch.trace().size()));
        }
    }

    /** Law: the same bytes through a pseudo-terminal that the port library opens by its path. */
    @Test
    void aPseudoTerminalCarriesEveryReadingOfATouch(@TempDir Path folder) throws Exception {
        PtyPair pair = PtyPair.open(folder);
        SerialPort port = SerialPort.getCommPort(pair.ours().toString());
        try {
            port.setBaudRate(TIMED.line().speed_baud());
            port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, 1000, 0);
            assertTrue(port.openPort(), "the port library opens " + pair.ours());
            try (IndicatorServer server = IndicatorServer.onDevice(
                    JoineryScenario.of(SEED), TIMED, Pace.AS_FAST_AS_THE_LINK, pair.theirs())) {
                Trace expected = JoineryScenario.of(SEED)
                        .touch(JoineryScenario.SWIVEL_TO_SPINDLE, 0)
                        .trace();
                Thread technician = new Thread(() -> makeFirstTouch(server));
                technician.start();
                InputStream in = port.getInputStreamWithSuppressedTimeoutExceptions();
                assertSame(expected, new Client(TIMED, in).readings(expected.size()));
                technician.join();
            }
        } finally {
            port.closePort();
            pair.close();
        }
    }

    @Test
    void anIndicatorThatIsAskedAnswersEachRequestOnce() throws Exception {
        IndicatorProfile asked = Profiles.bundled("text-units-request");
        try (IndicatorServer server = onLoopback(asked, Pace.TRUE_CADENCE);
                Socket socket = connected(server)) {
            Client client = new Client(asked, socket.getInputStream());
            for (int i = 0; i < 5; i++) {
                socket.getOutputStream().write("?\r".getBytes(StandardCharsets.US_ASCII));
                assertEquals(-0.8, client.next().reading_mm(), 0.01, "free plunger, answer " + i);
            }
            socket.setSoTimeout(200);
            assertThrows(IOException.class, () -> socket.getInputStream().read(), "nothing comes unasked");
        }
    }

    @Test
    void atTheTrueCadenceStandingReadingsGoOn() throws Exception {
        try (IndicatorServer server = onLoopback(TIMED, Pace.TRUE_CADENCE);
                Socket socket = connected(server)) {
            long start = System.nanoTime();
            Reading[] readings = new Client(TIMED, socket.getInputStream()).readings(11);
            double took_s = (System.nanoTime() - start) / 1e9;
            assertEquals(0.4, readings[10].time_s() - readings[0].time_s(), 1e-9);
            assertTrue(took_s > 0.3, "ten intervals of 40 ms came within " + took_s + " s");
        }
    }

    @Test
    void theNextClientMayComeWhenOneHasLeft() throws Exception {
        try (IndicatorServer server = onLoopback(TIMED, Pace.TRUE_CADENCE)) {
            for (int visit = 0; visit < 3; visit++) {
                try (Socket socket = connected(server)) {
                    assertEquals(3, new Client(TIMED, socket.getInputStream()).readings(3).length, "visit " + visit);
                }
            }
        }
    }

    @Test
    void framesWithoutTimeAreNotSentFasterThanTheyWereTaken() {
        IndicatorProfile untimed = Profiles.bundled("text-mm-stream");
        assertThrows(IllegalArgumentException.class, () -> onLoopback(untimed, Pace.AS_FAST_AS_THE_LINK));
    }

    @Test
    void aTouchOnAClosedLinkIsToldNotAwaited() throws Exception {
        IndicatorServer server = onLoopback(TIMED, Pace.AS_FAST_AS_THE_LINK);
        server.close();
        assertThrows(IOException.class, () -> server.touch(JoineryScenario.SPINDLE_TO_DRILL, 0));
    }

    private static IndicatorServer onLoopback(IndicatorProfile profile, Pace pace) throws IOException {
        VirtualJob job = JoineryScenario.of(SEED);
        return IndicatorServer.onLoopback(job, profile, pace, 0);
    }

    private static Socket connected(IndicatorServer server) throws IOException {
        return new Socket(InetAddress.getLoopbackAddress(), server.port());
    }

    private static void makeFirstTouch(IndicatorServer server) {
        try {
            server.touch(JoineryScenario.SWIVEL_TO_SPINDLE, 0);
        } catch (IOException | InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static void assertSame(Trace expected, Reading[] readings) {
        Reading[] wanted = new Reading[readings.length];
        for (int i = 0; i < wanted.length; i++) {
            wanted[i] = expected.reading(i);
        }
        assertArrayEquals(wanted, readings);
    }

    /** Decodes what arrives. */
    private static final class Client {
        private final FrameDecoder decoder;
        private final InputStream in;
        private final byte[] buffer = new byte[90];

        Client(IndicatorProfile profile, InputStream in) {
            this.decoder = new FrameDecoder(profile);
            this.in = in;
        }

        Reading[] readings(int count) throws IOException {
            Reading[] readings = new Reading[count];
            for (int i = 0; i < count; i++) {
                readings[i] = next();
            }
            return readings;
        }

        Reading next() throws IOException {
            while (true) {
                Decoded decoded = decoder.next();
                if (decoded instanceof Decoded.Value value) {
                    return new Reading(value.time_s().orElse(0), value.reading_mm(), value.mark());
                }
                if (decoded == Decoded.NeedMore.NEED_MORE) {
                    int got = in.read(buffer);
                    if (got < 0) {
                        throw new IOException("the link ended");
                    }
                    decoder.feed(buffer, 0, got);
                }
            }
        }
    }
}
