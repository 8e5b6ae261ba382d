package sweepbook.cli.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;

class HeadFieldsTest {
    private static final String ROTARY = "{\"rotary\":\"B\",\"about\":\"+Y\",\"from_deg\":-90,\"to_deg\":90}";

    private static PlannedHead parse(String toTool) throws IOException {
        return HeadFields.parse(
                JsonFields.parse("plan.json", "{\"toTool\":[" + toTool + "]}"),
                Set.of("tilt-axis-to-spindle"),
                Set.of("zero-of-the-tilt"));
    }

    private static void refused(String message, String toTool) {
        assertEquals(message, assertThrows(JsonFault.class, () -> parse(toTool)).getMessage());
    }

    /** Another head is another description. */
    @Test
    void aHeadThatTiltsAboutB() throws IOException {
        PlannedHead head = parse(ROTARY + ",{\"length\":\"tilt-axis-to-spindle\",\"along\":\"-X\"},"
                + "{\"length\":\"tool\",\"along\":\"-Z\",\"value\":\"5.0000 in\"}");
        assertEquals(127.0, head.stated().get("tool"));
        assertEquals(Set.of("tool", "tilt-axis-to-spindle", "b-zero"), head.entries());
        assertEquals("B", head.swings().get(0).axis());
    }

    @Test
    void aLengthThatNobodyMeasuresNeedsItsValue() {
        refused(
                "plan.json, line 1: field toTool.1.value: is missing",
                ROTARY + ",{\"length\":\"tool\",\"along\":\"-Z\"}");
    }

    @Test
    void aLengthThatIsMeasuredHasNoSecondValue() {
        refused(
                "plan.json, line 1: field toTool.1.value: is not needed: the offset 'tilt-axis-to-spindle' of this plan"
                        + " has it",
                ROTARY + ",{\"length\":\"tilt-axis-to-spindle\",\"along\":\"-Z\",\"value\":\"1.0 mm\"}");
    }

    @Test
    void anUnknownDirectionIsNamedWithTheKnownOnes() {
        refused(
                "plan.json, line 1: field toTool.1.along: 'down' is not one of +X, -X, +Y, -Y, +Z, -Z",
                ROTARY + ",{\"length\":\"tool\",\"along\":\"down\",\"value\":\"1.0 mm\"}");
    }

    @Test
    void aChainThatNeverTurnsIsRefused() {
        refused(
                "plan.json, line 1: field toTool: has no rotary axis; without one no length matters",
                "{\"length\":\"tool\",\"along\":\"-Z\",\"value\":\"1.0 mm\"}");
    }

    @Test
    void aMeasuredZeroIsTheReferenceOfItsAxis() throws IOException {
        PlannedHead head = parse(ROTARY.replace("}", ",\"zero\":\"zero-of-the-tilt\"}"));
        assertEquals(Set.of("zero-of-the-tilt"), head.entries());
        assertEquals(Set.of(), head.stated().keySet());
    }

    @Test
    void aReferenceThatNobodyMeasuresIsRefused() {
        refused(
                "plan.json, line 1: field toTool.0.zero: 'tram' is no offset of this plan that gives an angle",
                ROTARY.replace("}", ",\"zero\":\"tram\"}"));
    }

    @Test
    void anAxisTurnsOnce() {
        refused(
                "plan.json, line 1: field toTool.1.rotary: 'B' is there twice; give each axis its own name",
                ROTARY + "," + ROTARY);
    }
}
