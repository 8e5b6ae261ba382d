package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.acquisition.json.JsonFault;

/** What is wrong in a profile is told with the line and the field. */
class ProfileReaderTest {
    private static String bundled(String name) throws IOException {
        try (InputStream in = Profiles.class.getResourceAsStream(name + ".json")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @ParameterizedTest(name = "{1} -> {2}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "text-mm-stream | \"speed_baud\": 9600 | \"speed_baud\": 9 | line 4: field line.speed_baud: must be a whole number from 50",
                "text-mm-stream | \"none\" | \"nome\" | line 4: field line.parity: 'nome' is not one of none, odd, even",
                "text-mm-stream | \"stopBits\": 1, | \"stopBits\": 1.2, | line 4: field line.stopBits: must be 1, 1.5 or 2",
                "text-mm-stream | \"dtr\": true, |  | line 4: field line.dtr: is missing",
                "text-mm-stream | (?<reading> | (?<value> | line 7: field text.pattern: needs a group",
                "text-mm-stream | (?<status>OVER) | (?<status>OVER | line 7: field text.pattern: Unclosed group",
                "text-mm-stream | (?<status> | (?<state> | line 7: field text.pattern: group 'state' is not one of",
                "text-mm-stream | {reading:%+08.3f} | {value} | line 8: field text.template: '{value}' is not known",
                "text-mm-stream | {reading:%+08.3f} | {reading:%d} | line 8: field text.template: a format does not fit",
                "text-mm-stream | \"terminator\" | \"end\" | field text.terminator: is missing",
                "text-mm-stream | \"resolution\": 0.001 | \"resolution\": \"fine\" | line 10: field units.0.resolution: must be a number",
                "text-mm-stream | \"unit\": \"mm\" | \"unit\": \"thou\" | line 10: field units.0.unit: 'thou' is not one of mm, in",
                "text-mm-stream | over-range | too-far | line 11: field statusWords.OVER: 'too-far' is not one of over-range",
                "text-mm-stream | \"description\" | \"descripton\" | field description: is missing",
                "text-mm-stream | \"units\": | \"name\": \"again\", \"units\": | line 10: not JSON: Duplicate field 'name'",
                "text-mm-stream | \"text\": { | \"text\": { \"colour\": 1, | line 5: field text.colour: is not known here",
                "text-timed-stream | \"us\" | \"fortnights\" | field text.timeUnit: 'fortnights' is not one of s, ms, us",
                "packed-crc-stream | \"8005\" | \"8006\" | line 22: field fixed.check.checksum.check: these parameters give",
                "packed-crc-stream | \"mask\": \"38\" | \"mask\": \"28\" | field fixed.point.mask: must have one run of bits",
                "packed-crc-stream | \"count\": 6 | \"count\": 12 | field fixed.digits.count: the digits run beyond",
                "packed-crc-stream | \"to\": 5 | \"to\": 6 | field fixed.check.byte: the checksum covers itself",
                "packed-crc-stream | \"word\": \"1\" | \"word\": \"in\" | field fixed.unit: then each unit of the profile needs a word",
                "text-channels-stream | \"channel\": \"1\", | | field channel: is missing: frames say their channel",
                "text-mm-stream | \"units\": | \"channel\": \"1\", \"units\": | field channel: is given, but frames",
                "packed-crc-stream | \"a5\" | \"a\" | line 7: field fixed.start: must be pairs of hexadecimal digits",
                "packed-crc-stream | \"fixed\" | \"fixd\" | field text: a profile has either text or fixed",
            })
    void aFaultNamesLineAndField(String profile, String good, String bad, String told) throws IOException {
        String text = bundled(profile);
        assertTrue(text.contains(good), "not in the profile: " + good);
        String wrong = text.replace(good, bad == null ? "" : bad);
        String message = assertThrows(JsonFault.class, () -> Profiles.parse("shop.json", wrong))
                .getMessage();
        assertTrue(message.startsWith("shop.json"), message);
        assertTrue(message.contains(told), message);
    }

    @Test
    void aFrameThatNothingTellsFromNoiseIsRefused() throws IOException {
        String text = bundled("packed-crc-stream");
        int check = text.indexOf("\"check\": {");
        String unchecked = text.substring(0, text.lastIndexOf(',', check)) + "\n  },\n"
                + text.substring(text.indexOf("\"units\""));
        String message = assertThrows(JsonFault.class, () -> Profiles.parse("shop.json", unchecked))
                .getMessage();
        assertTrue(message.contains("needs both start and end"), message);
    }

    @Test
    void whatIsNoJsonIsSaidSoWithItsLine() {
        assertEquals(
                "x.json: holds no JSON object; it must begin with {",
                assertThrows(JsonFault.class, () -> Profiles.parse("x.json", "[1]"))
                        .getMessage());
        String message = assertThrows(JsonFault.class, () -> Profiles.parse("x.json", "{\n\"a\": 1,\n}"))
                .getMessage();
        assertTrue(message.startsWith("x.json, line 3: not JSON"), message);
    }
}
