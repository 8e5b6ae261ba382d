package sweepbook.acquisition.learn;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.acquisition.link.Link;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.Uart;
import sweepbook.acquisition.time.SetClock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.LineSettings.Parity;
import sweepbook.acquisition.wire.LineSettings.StopBits;
import sweepbook.acquisition.wire.Profiles;

/** Settings of a line that nobody described, on a line that is played bit by bit. */
class LineSearchTest {
    private final SetClock clock = new SetClock();
    private final List<String> told = new ArrayList<>();
    private final long seed = new Random().nextLong();

    /** A device on a serial line: what it sends, or answers, is heard at whatever settings the line is opened. */
    private final class Device implements Link {
        private final byte[] heard;
        private final Optional<byte[]> request;
        private boolean asked;
        private int given;

        Device(byte[] sent, LineSettings device, Optional<byte[]> request, LineSettings opened) {
            this.heard = Uart.heard(sent, device, opened, new Random(seed));
            this.request = request.filter(bytes -> opened.equals(device) || bytes.length == 0);
            this.asked = request.isEmpty();
        }

        @Override
        public int read(byte[] buffer, Duration timeout) {
            clock.advance(0.1);
            int count = asked ? Math.min(60, heard.length - given) : 0;
            System.arraycopy(heard, given, buffer, 0, count);
            given += count;
            asked = asked && request.isEmpty();
            return count;
        }

        @Override
        public boolean isReady() {
            return asked;
        }

        @Override
        public void write(byte[] bytes) {
            asked = request.isPresent()
                    && new String(bytes, StandardCharsets.ISO_8859_1)
                            .equals(new String(request.get(), StandardCharsets.ISO_8859_1));
        }

        @Override
        public void close() {}
    }

    private Learned search(byte[] sent, LineSettings device, Optional<byte[]> request, Hints hints) throws Exception {
        LinkAddress address = LinkAddress.parse("serial:/dev/played");
        return new LineSearch(
                        address,
                        (where, line) -> new Device(sent, device, request, line),
                        clock,
                        Duration.ofSeconds(3),
                        hints,
                        told::add)
                .search();
    }

    private static double value(int i) {
        return Math.rint(2500 * Math.sin(i / 3.0)) / 1000;
    }

    private static byte[] lines(String format) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 60; i++) {
            text.append(String.format(Locale.ROOT, format, value(i)));
        }
        return text.toString().getBytes(StandardCharsets.US_ASCII);
    }

    private Learned.Proposed proposed(Learned learned) {
        return assertInstanceOf(Learned.Proposed.class, learned, "seed " + seed + ", tried " + told);
    }

    @ParameterizedTest(name = "{0} baud, {1} bits, parity {2}, {3} stop bits")
    @CsvSource({
        "9600,   8, NONE, ONE",
        "115200, 8, NONE, ONE",
        "4800,   7, EVEN, ONE",
        "19200,  7, ODD,  ONE",
        "2400,   7, NONE, TWO",
        "1200,   7, EVEN, TWO",
        "38400,  8, EVEN, ONE",
        "57600,  8, ODD,  ONE",
        "19200,  8, NONE, TWO"
    })
    void speedParityAndFramingAreFound(int speed_baud, int bits, Parity parity, StopBits stop) throws Exception {
        LineSettings device = new LineSettings(speed_baud, bits, parity, stop, true, true);
        Learned.Proposed learned = proposed(search(lines("%+08.3f mm\r\n"), device, Optional.empty(), Hints.NONE));
        LineSettings found = learned.profile().line();
        assertEquals(speed_baud, found.speed_baud());
        assertEquals(bits, found.dataBits());
        assertEquals(parity, found.parity());
        for (int i = 0; i < learned.values().size(); i++) {
            assertEquals(
                    value(i + 60 - learned.values().size()),
                    learned.values().get(i).value());
        }
    }

    @Test
    void aPackedFormatIsFoundAtItsSpeed() throws Exception {
        FrameEncoder encoder = new FrameEncoder(Profiles.bundled("packed-crc-stream"));
        ByteArrayOutputStream sent = new ByteArrayOutputStream();
        for (int i = 0; i < 80; i++) {
            sent.writeBytes(encoder.encode(new Reading(0, value(i))));
        }
        LineSettings device = LineSettings.eightNoneOne(19200);
        Learned.Proposed learned = proposed(search(sent.toByteArray(), device, Optional.empty(), Hints.NONE));
        assertEquals(19200, learned.profile().line().speed_baud());
    }

    /** What is open at the right speed is asked for at once, not covered by what the next speeds bring. */
    @Test
    void theSearchEndsWhereTheLinesAreUnderstood() throws Exception {
        LineSettings device = LineSettings.eightNoneOne(9600);
        Learned learned = search(lines("%+08.3f\r\n"), device, Optional.empty(), Hints.NONE);
        assertTrue(assertInstanceOf(Learned.Undecided.class, learned).why().contains("--unit mm or --unit in"));
        assertEquals(List.of("listening at 9600 baud, 8N1"), told);
        proposed(search(lines("%+08.3f\r\n"), device, Optional.empty(), Hints.NONE.withUnit(LengthUnit.MM)));
    }

    @Test
    void aSilentIndicatorIsAskedAsTheBundledProfilesAsk() throws Exception {
        IndicatorProfile asked = Profiles.bundled("text-units-request");
        byte[] answers = lines("%+09.4fmm\r");
        Learned.Proposed learned = proposed(search(
                answers, asked.line(), Optional.of(asked.request().orElseThrow().bytes()), Hints.NONE));
        assertEquals(Profiles.json(asked.name()), learned.json());
        // Other lines in answer to the same request: their shape is learned, and the request goes with it.
        Learned.Proposed other = proposed(search(
                lines("A %7.2f mm\r\n"),
                asked.line(),
                Optional.of(asked.request().orElseThrow().bytes()),
                Hints.NONE));
        assertEquals(asked.request(), other.profile().request());
    }

    @Test
    void aDeadLineIsSaidSo() throws Exception {
        Learned learned = search(new byte[0], LineSettings.eightNoneOne(9600), Optional.empty(), Hints.NONE);
        assertTrue(assertInstanceOf(Learned.Refused.class, learned).why().startsWith("nothing came"));
    }
}
