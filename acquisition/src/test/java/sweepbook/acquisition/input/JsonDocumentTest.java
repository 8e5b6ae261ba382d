package sweepbook.acquisition.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.annotation.JsonCreator;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JsonDocumentTest {
    enum Wood {
        RED_BEECH,
        OAK
    }

    record Size(String text) {
        @JsonCreator(mode = JsonCreator.Mode.DELEGATING)
        Size {
            if (!text.endsWith("mm")) {
                throw new IllegalArgumentException("'" + text + "' has no unit; write mm behind the number");
            }
        }
    }

    record Board(Wood wood, Size thickness, Optional<String> remark) {}

    record Stack(String name, BigDecimal moisture, List<Board> boards) {}

    private static final String GOOD =
            """
            {
              "name": "left rack",
              "moisture": 0.12,
              "boards": [
                {"wood": "red-beech", "thickness": "27 mm"},
                {"wood": "oak",
                 "thickness": "40 mm",
                 "remark": "split"}
              ]
            }
            """;

    @Test
    void aWholeDocumentBecomesRecords() throws Exception {
        Stack stack = JsonDocument.parse("rack.json", GOOD).as(Stack.class);
        assertEquals(
                new Stack(
                        "left rack",
                        new BigDecimal("0.12"),
                        List.of(
                                new Board(Wood.RED_BEECH, new Size("27 mm"), Optional.empty()),
                                new Board(Wood.OAK, new Size("40 mm"), Optional.of("split")))),
                stack);
    }

    @Test
    void aMissingFieldIsNamedWithTheLineOfItsObject() {
        assertFault("rack.json:6: boards.1.thickness: is missing", GOOD.replace("\"thickness\": \"40 mm\",", ""));
    }

    @Test
    void aFieldThatDoesNotBelongIsNamedWithItsLine() {
        assertFault(
                "rack.json:8: boards.1.remrk: is not a field here; the fields are [remark, thickness, wood]",
                GOOD.replace("\"remark\"", "\"remrk\""));
    }

    @Test
    void aWordThatIsNotAChoiceIsToldTheChoices() {
        assertFault(
                "rack.json:5: boards.0.wood: is \"ash\": write one of red-beech, oak",
                GOOD.replace("red-beech", "ash"));
    }

    @Test
    void aConstructorsObjectionIsToldAtItsPlace() {
        assertFault(
                "rack.json:7: boards.1.thickness: '40 zoll' has no unit; write mm behind the number",
                GOOD.replace("40 mm", "40 zoll"));
    }

    @Test
    void brokenJsonIsToldWithItsLine() {
        InputException e =
                assertThrows(InputException.class, () -> JsonDocument.parse("rack.json", GOOD.replace("0.12", "0,12")));
        assertEquals("rack.json:3: is not valid JSON", e.getMessage().substring(0, 30));
    }

    @Test
    void aDirectoryIsNotADocument(@TempDir Path folder) {
        InputException e = assertThrows(InputException.class, () -> JsonDocument.read(folder));
        assertEquals(folder + ": is a directory; name a JSON file in it", e.getMessage());
    }

    private static void assertFault(String line, String text) {
        InputException e = assertThrows(InputException.class, () -> JsonDocument.parse("rack.json", text)
                .as(Stack.class));
        assertEquals(line, e.getMessage());
    }
}
