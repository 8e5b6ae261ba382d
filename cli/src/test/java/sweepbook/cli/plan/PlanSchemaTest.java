package sweepbook.cli.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
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
class PlanSchemaTest {
    private static final Schema SCHEMA = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(schema(), InputFormat.JSON);

    private static String schema() {
        try (InputStream in = Plans.class.getResourceAsStream("plan.schema.json")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void everyBundledPlanIsValid() throws IOException {
        for (String name : Plans.BUNDLED) {
            assertEquals(List.of(), SCHEMA.validate(Plans.text(name), InputFormat.JSON), name);
        }
    }

    @ParameterizedTest(name = "{0} -> {1}")
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "\"method\": \"reversal\" | \"method\": \"half-turn\"",
                "\"method\": \"reversal\" | \"method\": \"alignment\"",
                "\"method\": \"reversal\" | \"method\": \"tram\"",
                "\"method\": \"reversal\" | \"method\": \"reversal\", \"repeats\": 0",
                "\"method\": \"reversal\" | \"method\": \"reversal\", \"travelAxis\": \"Y\"",
                "\"method\": \"reversal\" | \"method\": \"reversal\", \"habit\": \"jog\"",
                "\"direction\": \"plus\" | \"direction\": \"up\"",
                "\"axis\": \"X\" | \"axis\": \"W\"",
                "86.420 mm | 86,420 mm",
                "86.420 mm | 86.420",
                "\"serial\" | \"serail\"",
                "\"along\": \"+X\" | \"along\": \"right\"",
                "\"tilt_deg\": 1.0 | \"tilt_deg\": 50",
            })
    void whatTheSchemaRefusesTheReaderRefuses(String good, String bad) throws IOException {
        String text = Plans.text("joinery-head");
        String wrong = text.replace(good, bad);
        assertNotEquals(text, wrong);
        assertFalse(SCHEMA.validate(wrong, InputFormat.JSON).isEmpty());
        assertThrows(JsonFault.class, () -> PlanFile.parse("shop.json", wrong));
    }
}
