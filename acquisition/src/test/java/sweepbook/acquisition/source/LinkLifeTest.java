package sweepbook.acquisition.source;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.source.Event.FrameDropped;
import sweepbook.acquisition.source.Event.FramesDropped;
import sweepbook.acquisition.source.Event.LinkBack;
import sweepbook.acquisition.source.Event.LinkLost;
import sweepbook.acquisition.source.Event.NothingDecodes;
import sweepbook.acquisition.source.Event.NothingYet;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.source.Event.Silence;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.time.SetClock;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;

/** What becomes of a link between its first reading and its last. */
@Timeout(60)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class LinkLifeTest {
    static final IndicatorProfile PLAIN = Profiles.bundled("text-mm-stream");
    private static final Duration SECOND = Duration.ofSeconds(1);
    static final Duration PATIENCE = Duration.ofSeconds(20);

    private static final FutureTask<Told> vanished = new FutureTask<>(LinkLifeTest::vanish);

    private final SetClock setClock = new SetClock();

    /** The next event that is more than waiting, which has to be of that kind. */
    static <E extends Event> E await(Class<E> kind, ReadingSource source) throws IOException {
        Event event = source.next(SECOND);
        while (event == NothingYet.NOTHING_YET) {
            event = source.next(SECOND);
        }
        assertEquals(kind, event.getClass(), event.toString());
        return kind.cast(event);
    }

    @Test
    void aLinkThatFallsSilentIsToldOnceAndGoesOn() throws Exception {
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ReadingSource source = overTcp(server, PLAIN);
                Socket device = server.accept()) {
            write(device, "+001.000\r\n+00");
            await(ReadingTaken.class, source);
            setClock.advance(6);
            assertEquals("+00", await(FrameDropped.class, source).excerpt());
            assertEquals(6, await(Silence.class, source).since_s(), 1e-9);
            setClock.advance(6);
            write(device, "+002.000\r\n");
            assertEquals(2, await(ReadingTaken.class, source).reading().reading_mm());
        }
    }

    @Test
    void anIndicatorWithAButtonMayBeSilentAndEachPressIsRead() throws Exception {
        IndicatorProfile button = Profiles.bundled("text-check-button");
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ReadingSource source = overTcp(server, button);
                Socket device = server.accept()) {
            for (int press = 1; press <= 3; press++) {
                setClock.advance(60);
                device.getOutputStream().write(new FrameEncoder(button).encode(new Reading(0, press)));
                Reading reading = await(ReadingTaken.class, source).reading();
                assertEquals(press, reading.reading_mm());
                assertEquals(setClock.monotonic_s(), reading.time_s(), 0.2);
            }
        }
    }

    /** Nobody at the other end, and no word of it: the system would try to deliver the request for a quarter of an hour. */
    @Test
    void aConnectionOverWhichRequestsStayUnansweredIsOpenedAgainOnce() throws Exception {
        IndicatorProfile asked = Profiles.bundled("text-units-request");
        try (ServerSocket server = new ServerSocket(0, 2, InetAddress.getLoopbackAddress());
                ReadingSource source = overTcp(server, asked);
                Socket gone = server.accept()) {
            byte[] answer = new FrameEncoder(asked).encode(new Reading(0, 1));
            gone.getInputStream().readNBytes(2);
            gone.getOutputStream().write(answer);
            await(ReadingTaken.class, source);
            setClock.advance(11);
            List<Event> told = new ArrayList<>();
            while (told.isEmpty() || !(told.get(told.size() - 1) instanceof LinkBack)) {
                Event event = source.next(SECOND);
                if (event instanceof Event.Incident) {
                    told.add(event);
                }
            }
            assertTrue(told.stream()
                    .anyMatch(e -> e instanceof LinkLost lost && lost.why().contains("no answer for")));
            try (Socket back = server.accept()) {
                setClock.advance(11);
                // Still silent: the indicator is off, and to open the connection again would not help.
                await(Silence.class, source);
                back.getInputStream().readNBytes(2);
                back.getOutputStream().write(answer);
                while (!(source.next(SECOND) instanceof ReadingTaken)) {
                    // Requests without an answer are told before it.
                }
            }
        }
    }

    /** An answer behind its time-out is taken when it comes: it must not pass for the answer to the next request. */
    @Test
    void anAnswerThatComesTooLateDoesNotStandForTheNext() throws Exception {
        IndicatorProfile asked = Profiles.parse(
                "slow.json",
                Profiles.json("text-units-request")
                        .replace(
                                "\"interval_s\": 0.05, \"timeout_s\": 0.3, \"retries\": 2",
                                "\"interval_s\": 1," + " \"timeout_s\": 0.3, \"retries\": 0"));
        try (ServerSocket server = new ServerSocket(0, 2, InetAddress.getLoopbackAddress());
                ReadingSource source = overTcp(server, asked);
                Socket device = server.accept()) {
            device.getInputStream().readNBytes(2);
            setClock.advance(0.4);
            assertEquals(
                    "no answer to 1 requests", await(FrameDropped.class, source).why());
            device.getOutputStream().write(new FrameEncoder(asked).encode(new Reading(0, 1)));
            double late_s = await(ReadingTaken.class, source).reading().time_s();
            assertEquals(setClock.monotonic_s(), late_s, 0.1);
            setClock.advance(1);
            device.getInputStream().readNBytes(2);
            device.getOutputStream().write(new FrameEncoder(asked).encode(new Reading(0, 2)));
            assertEquals(2, await(ReadingTaken.class, source).reading().reading_mm());
        }
    }

    private ReadingSource overTcp(ServerSocket server, IndicatorProfile profile) throws LinkException {
        return WireSource.open(
                LinkAddress.parse("tcp:127.0.0.1:" + server.getLocalPort()), profile, setClock, PATIENCE);
    }

    private static void write(Socket device, String text) throws IOException {
        device.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
    }

    /** A megabaud of noise for half a minute, all of it at once; before and behind it the indicator speaks. */
    @ParameterizedTest
    @ValueSource(strings = {"text-mm-stream", "text-timed-stream", "packed-crc-stream", "digits-framed-stream"})
    void aFloodOfNoiseGivesNoReadingAndFillsNothing(String name) throws Exception {
        IndicatorProfile profile = Profiles.bundled(name);
        long seed = new Random().nextLong();
        byte[] noise = new byte[3_000_000];
        new Random(seed).nextBytes(noise);
        FrameEncoder encoder = new FrameEncoder(profile);
        int told = 0;
        long counted = 0;
        List<Double> read = new ArrayList<>();
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
                ReadingSource source = overTcp(server, profile);
                Socket device = server.accept()) {
            Thread talker = new Thread(() -> {
                try {
                    device.getOutputStream().write(encoder.encode(new Reading(0, 1)));
                    device.getOutputStream().write(noise);
                    // A line end by which the noise is over, whatever it was.
                    write(device, "\r\n\n\r\n\n");
                    for (int i = 2; i <= 12; i++) {
                        device.getOutputStream().write(encoder.encode(new Reading(i, i)));
                    }
                } catch (IOException e) {
                    throw new AssertionError(e);
                }
            });
            talker.start();
            while (!read.contains(12.0)) {
                Event event = source.next(SECOND);
                if (event instanceof ReadingTaken taken) {
                    read.add(taken.reading().reading_mm());
                } else if (event instanceof FramesDropped more) {
                    counted += more.count();
                }
                told += event instanceof Event.Incident ? 1 : 0;
            }
            talker.join();
            device.shutdownOutput();
            for (Event event = source.next(SECOND); !(event instanceof LinkLost); event = source.next(SECOND)) {
                counted += event instanceof FramesDropped more ? more.count() : 0;
            }
        }
        assertTrue(read.stream().allMatch(mm -> mm >= 1 && mm <= 12 && mm == Math.rint(mm)), "seed " + seed + read);
        assertTrue(read.containsAll(List.of(1.0, 11.0)), "seed " + seed + ": " + read);
        assertTrue(told <= 30, told + " incidents, seed " + seed);
        assertTrue(counted > noise.length / 300, counted + " counted, seed " + seed);
    }

    /** One byte a second: what comes is told, and the frame is a reading when it is whole. */
    @Test
    void aTalkerOfOneByteASecondIsToldAndRead() throws Exception {
        List<Event> events = new ArrayList<>();
        WireReader reader = new WireReader("slow", PLAIN, events::add);
        byte[] frame = new FrameEncoder(PLAIN).encode(new Reading(0, 12.345));
        for (int i = 0; i < frame.length; i++) {
            reader.take(new byte[] {frame[i]}, 1, i);
        }
        assertEquals("+012", ((NothingDecodes) events.get(0)).excerpt());
        assertEquals(
                12.345, ((ReadingTaken) events.get(events.size() - 1)).reading().reading_mm());
        assertEquals(3, events.size(), events.toString());
    }

    /** Waits for what {@link #vanished} tells, beside the other tests. */
    @BeforeAll
    static void letAPeerVanish() {
        Thread watch = new Thread(vanished, "vanished peer");
        watch.setDaemon(true);
        watch.start();
    }

    /** What was told, and how long after the peer had vanished. */
    private record Told(LinkLost lost, double after_s) {}

    private static Told vanish() throws IOException {
        Clock clock = Clock.system();
        try (VanishingPeer peer = VanishingPeer.start();
                ReadingSource source =
                        ReadingSources.open(LinkAddress.parse(peer.link()), Optional.of(PLAIN), clock, PATIENCE)) {
            await(ReadingTaken.class, source);
            peer.vanish();
            double vanished_s = clock.monotonic_s();
            await(Silence.class, source);
            LinkLost lost = await(LinkLost.class, source);
            return new Told(lost, clock.monotonic_s() - vanished_s);
        }
    }

    /** A cable is cut behind the next box: no packet comes back, and nobody says that the connection is over. */
    @Test
    @EnabledOnOs(OS.LINUX)
    @Order(Integer.MAX_VALUE)
    void aConnectionWhosePeerVanishedWithoutAWordIsToldWithinFifteenSeconds() throws Throwable {
        Told told;
        try {
            told = vanished.get();
        } catch (ExecutionException e) {
            throw e.getCause();
        }
        assertTrue(told.lost().why().contains("Connection timed out"), told.toString());
        assertTrue(told.after_s() > 5 && told.after_s() < 15, told.toString());
    }
}
