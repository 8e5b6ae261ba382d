package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.acquisition.trace.Reading;

/** Lines that a pattern lets through although their number is none, or another than it seems. */
class TextLinesTest {
    private static IndicatorProfile profile(String pattern, String more) throws Exception {
        return Profiles.parse(
                "x.json",
                """
                {"name": "x", "description": "x",
                 "line": {"speed_baud": 9600, "dataBits": 8, "parity": "none", "stopBits": 1, "dtr": true, "rts": true},
                 "text": {"terminator": "\\n", "pattern": "%s"%s},
                 "units": [{"unit": "mm", "resolution": 0.001}]}
                """
                        .formatted(pattern, more));
    }

    private static String decoded(IndicatorProfile profile, String line) {
        FrameDecoder decoder = new FrameDecoder(profile);
        byte[] bytes = (line + "\n").getBytes(StandardCharsets.ISO_8859_1);
        decoder.feed(bytes, 0, bytes.length);
        Decoded next = decoder.next();
        return next instanceof Decoded.Value value ? Double.toString(value.value()) : ((Decoded.Fault) next).why();
    }

    @ParameterizedTest(name = "''{0}''")
    @CsvSource(
            ignoreLeadingAndTrailingWhitespace = false,
            value = {
                "+ 12.345,12.345",
                "-   1.5,-1.5",
                "  2.5,2.5",
                "-0.000,-0.0",
                "1.5E-1,0.15",
                // A zero that lost a bit is a blank: what is left is another number.
                "+1 2.345,a number in it cannot be read",
                "12. 45,a number in it cannot be read",
                "1.5d,a number in it cannot be read",
                "0x1p3,a number in it cannot be read",
                "NaN,a number in it cannot be read",
                "1.2.3,a number in it cannot be read",
                "--1.2,a number in it cannot be read",
                "1\u0000.5,a number in it cannot be read"
            })
    void onlyADecimalNumberIsAReading(String line, String expected) throws Exception {
        // The front of a first line could be missing: here nothing could stand in front of it.
        assertEquals(expected, decoded(profile("#(?<reading>.*)", ""), "#" + line));
    }

    @Test
    void aDecimalCommaIsReadAndSentWhereTheProfileSaysSo() throws Exception {
        String pattern = "(?<reading>[+-]\\\\d{3},\\\\d{3})";
        IndicatorProfile comma = profile(pattern, ", \"decimalMark\": \",\", \"template\": \"{reading:%+08.3f}\"");
        assertEquals("-12.345", decoded(comma, "-012,345"));
        byte[] line = new FrameEncoder(comma).encode(new Reading(0, -12.345));
        assertEquals("-012,345\n", new String(line, StandardCharsets.US_ASCII));
        assertEquals("a number in it cannot be read", decoded(profile(pattern, ""), "-012,345"));
    }
}
