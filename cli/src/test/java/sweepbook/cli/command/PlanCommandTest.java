package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sweepbook.cli.plan.Plans;

class PlanCommandTest {
    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... args) {
        CommandLine commandLine = Sweepbook.commandLine();
        commandLine.setOut(new PrintWriter(out, true));
        commandLine.setErr(new PrintWriter(err, true));
        return commandLine.execute(args);
    }

    @Test
    void aGoodPlanIsToldByWhatItMeasures() {
        assertEquals(0, run("plan", "check", "joinery-head"));
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
        assertEquals(2, run("plan", "check", file.toString()));
        assertEquals("", out.toString());
        assertEquals(1, err.toString().lines().count(), err.toString());
        assertTrue(err.toString().contains("field offsets.3.touches.0.sweep: is missing"), err.toString());
    }
}
