package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.cli.plan.Plans;

class PlanCommandTest extends RunsCommands {
    @TempDir
    Path folder;

    @Test
    void aGoodPlanIsToldByWhatItMeasures() {
        assertEquals(0, execute("plan", "check", "joinery-head"));
        String[] lines = out.toString().split("\\R");
        assertEquals("joinery-head: a plan of 4 offsets on gantry router 2, Brennholt joinery (BH-2-0417)", lines[0]);
        assertEquals(
                "  swivel-axis-to-spindle: reversal along X, 2 touches; entry 'swivel to spindle X' stands at 86.420 mm",
                lines[1]);
        assertEquals("", err.toString());
    }

    @Test
    void aFaultIsToldInOneLineWithItsPlace() throws Exception {
        Path file = folder.resolve("shop.json");
        Files.writeString(file, Plans.text("joinery-head").replace("\"sweep\": \"none\"", "\"swept\": \"none\""));
        assertEquals(2, execute("plan", "check", file.toString()));
        assertEquals("", out.toString());
        assertEquals(1, err.toString().lines().count(), err.toString());
        assertTrue(err.toString().contains("field offsets.3.touches.0.sweep: is missing"), err.toString());
    }

    @Test
    void everyBundledPlanIsListedAndShownAsItIsRead() throws Exception {
        assertEquals(0, execute("plan", "list"));
        assertEquals(
                Plans.BUNDLED,
                out.toString().lines().map(line -> line.split(" ")[0]).toList());
        assertTrue(out.toString().contains("tilt-axis-to-gauge-face    Tilt axis to gauge face, 3 touches"));
        for (String name : Plans.BUNDLED) {
            out.getBuffer().setLength(0);
            assertEquals(0, execute("plan", "show", name));
            Path copy = folder.resolve(name + ".json");
            Files.writeString(copy, out.toString());
            assertEquals(0, execute("plan", "check", copy.toString()), err::toString);
        }
    }
}
