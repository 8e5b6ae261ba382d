package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.acquisition.json.JsonFault;

/** The published schema says the same as the reader, by a schema validator from elsewhere. */
class ProfileSchemaTest {
    private static final Schema SCHEMA = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(resource("profile.schema.json"), InputFormat.JSON);

    private static String resource(String name) {
        try (InputStream in = Profiles.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void everyBundledProfileIsValid() {
        for (String name : Profiles.BUNDLED) {
            assertEquals(List.of(), SCHEMA.validate(resource(name + ".json"), InputFormat.JSON), name);
        }
    }

    @ParameterizedTest(name = "{1} -> {2}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "text-mm-stream | \"none\" | \"nome\"",
                "text-mm-stream | \"stopBits\": 1, | \"stopBits\": 1.2,",
                "text-mm-stream | \"dtr\": true, | ",
                "text-mm-stream | (?<reading> | (?<value>",
                "text-mm-stream | \"unit\": \"mm\" | \"unit\": \"thou\"",
                "text-mm-stream | over-range | too-far",
                "text-mm-stream | \"description\" | \"descripton\"",
                "text-mm-stream | \"resolution\": 0.001 | \"resolution\": 0",
                "text-units-request | \"retries\": 2 | \"retries\": -2",
                "packed-crc-stream | \"a5\" | \"a\"",
                "packed-crc-stream | \"nibbles\" | \"nibble\"",
                "packed-crc-stream | \"count\": 6 | \"count\": 16",
                "packed-crc-stream | \"check\": \"4b37\" | \"xorOut\": \"0000\"",
                "packed-crc-stream | \"point\" | \"points\"",
                "packed-crc-stream | \"fixed\" | \"fixd\"",
            })
    void whatTheSchemaRefusesTheReaderRefuses(String profile, String good, String bad) {
        String text = resource(profile + ".json");
        String wrong = text.replace(good, bad == null ? "" : bad);
        assertFalse(SCHEMA.validate(wrong, InputFormat.JSON).isEmpty());
        assertThrows(JsonFault.class, () -> Profiles.parse("shop.json", wrong));
    }
}
