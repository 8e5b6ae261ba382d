package sweepbook.acquisition.source;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.link.PtyPair;
import sweepbook.acquisition.source.Event.EndOfInput;
import sweepbook.acquisition.source.Event.FrameDropped;
import sweepbook.acquisition.source.Event.LinkBack;
import sweepbook.acquisition.source.Event.LinkLost;
import sweepbook.acquisition.source.Event.NothingDecodes;
import sweepbook.acquisition.source.Event.NothingYet;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.source.Event.StatusShown;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;

@Timeout(30)
class ReadingSourceTest {
    private static final IndicatorProfile TIMED = Profiles.bundled("text-timed-stream");
    private static final IndicatorProfile PLAIN = Profiles.bundled("text-mm-stream");
    private static final Duration SECOND = Duration.ofSeconds(1);

    @TempDir
    Path folder;

    private static ReadingSource open(String link, IndicatorProfile profile) throws IOException {
        return ReadingSources.open(LinkAddress.parse(link), Optional.of(profile), Clock.system(), SECOND);
    }

    /** What an indicator sends in a sweep of so many readings. */
    private static byte[] sweep(IndicatorProfile profile, int readings) {
        FrameEncoder encoder = new FrameEncoder(profile);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (int i = 0; i < readings; i++) {
            double fromCrest = (i - readings / 2) / 500.0;
            bytes.writeBytes(encoder.encode(new Reading(i / 40.0, 0.5 - fromCrest * fromCrest, i % 50 == 0)));
        }
        return bytes.toByteArray();
    }

    /** Events until so many readings have come; nothing else may be among them. */
    private static Trace readings(ReadingSource source, int count) throws IOException {
        Trace.Builder trace = null;
        while (trace == null || trace.size() < count) {
            Event event = source.next(SECOND);
            if (event instanceof ReadingTaken taken) {
                if (trace == null) {
                    trace = new Trace.Builder(source.unit(), source.resolution_mm());
                }
                trace.add(taken.reading());
            } else {
                assertEquals(NothingYet.NOTHING_YET, event);
            }
        }
        return trace.build();
    }

    private static void assertSame(Trace expected, Trace actual) {
        assertArrayEquals(expected.times_s(), actual.times_s());
        assertArrayEquals(expected.readings_mm(), actual.readings_mm());
        assertEquals(expected.unit(), actual.unit());
        assertEquals(expected.resolution_mm(), actual.resolution_mm());
        for (int i = 0; i < expected.size(); i++) {
            assertEquals(expected.mark(i), actual.mark(i));
        }
    }

    @Test
    void serialNetworkAndReplayGiveTheSameTraceToTheLastBit() throws Exception {
        int count = 600;
        byte[] sent = sweep(TIMED, count);

        Trace serial;
        try (PtyPair pair = PtyPair.open(folder);
                ReadingSource source = open("serial:" + pair.ours(), TIMED);
                OutputStream device = Files.newOutputStream(pair.theirs())) {
            Thread talker = new Thread(() -> writeAll(device, sent));
            talker.start();
            serial = readings(source, count);
            talker.join();
        }
        Trace network;
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ReadingSource source = open("tcp:127.0.0.1:" + server.getLocalPort(), TIMED);
                Socket device = server.accept()) {
            device.getOutputStream().write(sent);
            network = readings(source, count);
        }
        Path csv = folder.resolve("sweep.csv");
        TraceCsvWriter.write(csv, serial);
        Trace replayed;
        try (ReadingSource source =
                ReadingSources.open(LinkAddress.parse("replay:" + csv), Optional.empty(), Clock.system(), SECOND)) {
            replayed = readings(source, count);
            assertEquals(EndOfInput.END_OF_INPUT, source.next(SECOND));
        }
        Path capture = folder.resolve("sweep.bytes");
        Files.write(capture, sent);
        Trace decoded;
        try (ReadingSource source = open("replay:" + capture, TIMED)) {
            decoded = readings(source, count);
            assertEquals(EndOfInput.END_OF_INPUT, source.next(SECOND));
        }
        assertEquals(0.5, serial.reading_mm(count / 2));
        assertEquals(count / 2 / 40.0, serial.time_s(count / 2));
        assertSame(serial, network);
        assertSame(serial, replayed);
        assertSame(serial, decoded);
        assertSame(serial, TraceCsv.read(csv));
    }

    private static void writeAll(OutputStream out, byte[] bytes) {
        try {
            out.write(bytes);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void aDeviceThatIsAskedAnswersAndOneThatIsSilentIsAskedAgain() throws Exception {
        IndicatorProfile asked = Profiles.bundled("text-units-request");
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ReadingSource source = open("tcp:127.0.0.1:" + server.getLocalPort(), asked);
                Socket device = server.accept()) {
            byte[] request = asked.request().orElseThrow().bytes();
            FrameEncoder encoder = new FrameEncoder(asked, asked.scales().get(1));
            for (int i = 1; i <= 6; i++) {
                assertArrayEquals(request, device.getInputStream().readNBytes(request.length));
                // The first two stay without an answer: the third is the last that is sent for one reading.
                if (i > 2) {
                    device.getOutputStream().write(encoder.encode(new Reading(0, i * 25.4)));
                }
            }
            Trace trace = readings(source, 4);
            assertEquals(LengthUnit.IN, trace.unit());
            assertArrayEquals(new double[] {3 * 25.4, 4 * 25.4, 5 * 25.4, 6 * 25.4}, trace.readings_mm());
            Event event = NothingYet.NOTHING_YET;
            while (event == NothingYet.NOTHING_YET) {
                event = source.next(SECOND);
            }
            assertEquals("no answer to 3 requests", ((FrameDropped) event).why());
        }
    }

    @Test
    void aLostConnectionComesBackAndTheReadingsGoOn() throws Exception {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ReadingSource source = open("tcp:127.0.0.1:" + server.getLocalPort(), PLAIN)) {
            try (Socket device = server.accept()) {
                device.getOutputStream().write("+001.000\r\n+00".getBytes(StandardCharsets.US_ASCII));
                assertEquals(1.0, readings(source, 1).reading_mm(0));
            }
            List<Event> between = new ArrayList<>();
            while (between.isEmpty() || !(between.get(between.size() - 1) instanceof LinkBack)) {
                Event event = source.next(SECOND);
                if (event != NothingYet.NOTHING_YET) {
                    between.add(event);
                }
            }
            assertEquals("+00", ((FrameDropped) between.get(0)).excerpt());
            assertTrue(((LinkLost) between.get(1)).why().contains("closed the connection"));
            assertEquals(3, between.size(), between.toString());
            try (Socket device = server.accept()) {
                device.getOutputStream().write("+002.000\r\n".getBytes(StandardCharsets.US_ASCII));
                assertEquals(2.0, readings(source, 1).reading_mm(0));
            }
        }
    }

    @Test
    void anUnpluggedPortComesBackAndTheReadingsGoOn() throws Exception {
        ReadingSource source;
        try (PtyPair pair = PtyPair.open(folder)) {
            source = open("serial:" + pair.ours(), PLAIN);
            try (OutputStream device = Files.newOutputStream(pair.theirs())) {
                device.write("+001.000\r\n".getBytes(StandardCharsets.US_ASCII));
                assertEquals(1.0, readings(source, 1).reading_mm(0));
            }
        }
        try (PtyPair pair = PtyPair.open(folder);
                ReadingSource sameSource = source) {
            Event event = sameSource.next(SECOND);
            while (!(event instanceof LinkBack)) {
                assertTrue(event instanceof LinkLost || event == NothingYet.NOTHING_YET, event.toString());
                event = sameSource.next(SECOND);
            }
            try (OutputStream device = Files.newOutputStream(pair.theirs())) {
                device.write("+002.000\r\n".getBytes(StandardCharsets.US_ASCII));
                assertEquals(2.0, readings(sameSource, 1).reading_mm(0));
            }
        }
    }

    @Test
    void aPortThatAnotherHasIsSaidToBeBusy() throws Exception {
        try (PtyPair pair = PtyPair.open(folder)) {
            // Another program that has the port: it holds the lock and says so.
            String port = pair.ours().toString();
            Process other = new ProcessBuilder("flock", "-x", port, "sh", "-c", "echo locked; cat").start();
            try {
                assertEquals("locked", other.inputReader().readLine());
                IOException busy = assertThrows(IOException.class, () -> open("serial:" + port, PLAIN));
                assertEquals(
                        "serial:" + port + ": the port is busy; another program has it, end that one first",
                        busy.getMessage());
            } finally {
                other.destroy();
                other.waitFor();
            }
        }
    }

    @Test
    void aLinkThatStaysLostFailsAfterPatienceAndKeepsWhatCame() throws Exception {
        ReadingSource source;
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            source = open("tcp:127.0.0.1:" + server.getLocalPort(), PLAIN);
            try (Socket device = server.accept()) {
                device.getOutputStream().write("+001.000\r\n".getBytes(StandardCharsets.US_ASCII));
            }
        }
        try (source) {
            assertEquals(1.0, readings(source, 1).reading_mm(0));
            LinkException e = assertThrows(LinkException.class, () -> {
                while (true) {
                    source.next(SECOND);
                }
            });
            assertTrue(e.isLost());
            assertThrows(LinkException.class, () -> source.next(SECOND));
        }
    }

    @Test
    void aUnitChangedInMidTraceIsSaidSo() throws Exception {
        Path capture = folder.resolve("unit.bytes");
        Files.writeString(capture, "000000000000 +01.00000 mm 0\n000000025000 +00.04000 in 0\n");
        try (ReadingSource source = open("replay:" + capture, TIMED)) {
            assertEquals(1.0, readings(source, 1).reading_mm(0));
            UnitChanged e = assertThrows(UnitChanged.class, () -> source.next(SECOND));
            assertTrue(e.getMessage().contains("from mm to in"), e.getMessage());
        }
    }

    @Test
    void statusWordsAreToldAndAreNoReadings() throws Exception {
        Path capture = folder.resolve("status.bytes");
        Files.writeString(capture, "OVER RANGE\n000000025000 +00.04000 in 0\nLOW BATTERY\n");
        try (ReadingSource source = open("replay:" + capture, TIMED)) {
            assertEquals(
                    "over-range", ((StatusShown) source.next(SECOND)).status().word());
            assertEquals(LengthUnit.IN, readings(source, 1).unit());
            assertEquals("LOW BATTERY", ((StatusShown) source.next(SECOND)).word());
            assertEquals(EndOfInput.END_OF_INPUT, source.next(SECOND));
        }
    }

    @Test
    void bytesOfWhichNothingDecodesAreToldAfterAWhile() throws Exception {
        Path capture = folder.resolve("noise.bytes");
        // 9600 baud brings 960 bytes a second: four seconds of them.
        Files.writeString(capture, "x\r\n".repeat(1280));
        try (ReadingSource source = open("replay:" + capture, PLAIN)) {
            int told = 0;
            Event event = source.next(SECOND);
            for (; event != EndOfInput.END_OF_INPUT; event = source.next(SECOND)) {
                told += event instanceof NothingDecodes ? 1 : 0;
            }
            assertEquals(1, told);
        }
    }
}
