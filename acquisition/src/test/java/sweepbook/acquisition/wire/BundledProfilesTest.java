package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every profile that comes with the program, against bytes written by hand after its description. */
class BundledProfilesTest {
    @ParameterizedTest(name = "{0} {1}")
    @CsvSource({
        "text-mm-stream,       '+012.345\\r\\n',                   12.345,   mm, false",
        "text-mm-stream,       '-000.001\\r\\n',                   -0.001,   mm, false",
        "text-timed-stream,    '000001250000 +00.50000 mm 0\\n',   0.5,      mm, false",
        "text-timed-stream,    '000001275000 -00.00005 in 1\\n',   -0.00005, in, true",
        "text-units-request,   '+012.3450mm\\r',                   12.345,   mm, false",
        "text-units-request,   '-001.2345in\\r',                   -1.2345,  in, false",
        "text-check-button,    '+012.3450 mm;2F\\r\\n',            12.345,   mm, false",
        "text-check-button,    '-000.0001 in;2E\\r\\n',            -0.0001,  in, false",
        "text-channels-stream, '1:-01.2345\\n',                    -1.2345,  mm, false",
        "packed-crc-stream,    'a5 18 01 23 45 e7 ba',             12.345,   mm, false",
        "packed-crc-stream,    'a5 a9 00 00 50 49 b9',             -0.0005,  in, false",
        "packed-crc-stream,    'a5 58 99 99 99 01 6c',             999.999,  mm, true",
        "digits-sum-request,   'c3 05 04 03 02 01 00 20 00 5b 4c',    123.45,   mm, false",
        "digits-sum-request,   'c3 05 00 00 00 00 00 41 01 5b 64',    -0.0005,  in, false",
        "digits-framed-stream, '02 31 30 31 32 33 34 35 32 03',    -12.345,  mm, false",
        "digits-framed-stream, '02 30 30 30 30 30 30 31 33 03',    0.001,    mm, false"
    })
    void handWrittenFramesAreRead(String profile, String frame, double value, String unit, boolean mark) {
        FrameDecoder decoder = new FrameDecoder(Profiles.bundled(profile));
        byte[] bytes = bytes(frame);
        decoder.feed(bytes, 0, bytes.length);
        Decoded decoded = decoder.next();
        assertTrue(decoded instanceof Decoded.Value, decoded.toString());
        Decoded.Value read = (Decoded.Value) decoded;
        assertEquals(value, read.value());
        assertEquals(unit, read.scale().unit().symbol());
        assertEquals(mark, read.mark());
        assertEquals(Decoded.NeedMore.NEED_MORE, decoder.next());
    }

    @ParameterizedTest(name = "{0} {1}")
    @CsvSource({
        "text-mm-stream,       'OVER\\r\\n',                    OVER_RANGE",
        "text-timed-stream,    'LOW BATTERY\\n',                LOW_BATTERY",
        "text-units-request,   'ERR2\\r',                       ERROR",
        "text-check-button,    'HIGH;35\\r\\n',                 OVER_RANGE",
        "text-channels-stream, '1:OUT\\n',                      OVER_RANGE",
        "packed-crc-stream,    'a5 1a 00 00 00 6f 01',          OVER_RANGE",
        "digits-sum-request,   'c3 00 00 00 00 00 00 20 10 5b 4d', OVER_RANGE"
    })
    void handWrittenStatusWordsAreNoReadings(String profile, String frame, IndicatorStatus status) {
        IndicatorProfile known = Profiles.bundled(profile);
        FrameDecoder decoder = new FrameDecoder(known);
        byte[] bytes = bytes(frame);
        decoder.feed(bytes, 0, bytes.length);
        Decoded decoded = decoder.next();
        assertTrue(decoded instanceof Decoded.StatusWord, decoded.toString());
        assertEquals(status, ((Decoded.StatusWord) decoded).status());
        assertArrayEquals(bytes, new FrameEncoder(known).encode(status));
    }

    private static byte[] bytes(String frame) {
        return frame.matches("([0-9a-f]{2} ?)+")
                ? HexFormat.of().parseHex(frame.replace(" ", ""))
                : frame.replace("\\r", "\r").replace("\\n", "\n").getBytes(StandardCharsets.US_ASCII);
    }

    @Test
    void eachBundledProfileIsNamedAsItsFileAndHasASample() throws NoSuchMethodException {
        Set<String> sampled = new TreeSet<>();
        CsvSource samples = BundledProfilesTest.class
                .getDeclaredMethod(
                        "handWrittenFramesAreRead",
                        String.class,
                        String.class,
                        double.class,
                        String.class,
                        boolean.class)
                .getAnnotation(CsvSource.class);
        Arrays.stream(samples.value()).forEach(row -> sampled.add(row.substring(0, row.indexOf(','))));
        assertEquals(new TreeSet<>(Profiles.BUNDLED), sampled);
        for (String name : Profiles.BUNDLED) {
            assertEquals(name, Profiles.bundled(name).name());
        }
    }
}
