package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.AlignmentMethod;
import sweepbook.cli.plan.Axis;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;

class PlanNewCommandTest extends RunsCommands {
    private static final List<String> MACHINE =
            List.of("Head of router 3", "router 3", "R3-55", "", "", "", "", "-20 3400", "-20 1600", "-50 900");
    private static final List<String> INDICATOR =
            List.of("plunger type", "WB-1", "", "", "text-mm-stream", "2026-02-11", "0.004", "0.001", "1.5", "", "");

    @TempDir
    Path folder;

    private Path file() {
        return folder.resolve("shop.json");
    }

    private int asked(List<String> answers) throws IOException {
        Path lines = folder.resolve("answers");
        Files.write(lines, answers);
        return execute("plan", "new", file().toString(), "--answers", lines.toString());
    }

    private static List<String> answers(List<String> machine, List<String> indicator, String... rest) {
        List<String> all = new ArrayList<>(machine);
        all.addAll(indicator);
        all.addAll(List.of(rest));
        return all;
    }

    private Plan plan() throws IOException {
        return PlanFile.parse("shop.json", Files.readString(file()));
    }

    @Test
    void badAnswersAreAskedAgain() throws IOException {
        List<String> machine = List.of(
                "",
                "Head of router 3",
                "router 3",
                "R3-55",
                "cm",
                "mm",
                "0,001",
                "0.001",
                "-1",
                "0.01",
                "-3",
                "",
                "-20",
                "3400 -20",
                "-20 3400",
                "-20 1600",
                "-50 900");
        List<String> indicator = List.of(
                "plunger type", "WB-1", "", "", "no-such", "text-mm-stream", "", "", "", "", "90", "2", "up", "raises");
        assertEquals(
                0,
                asked(answers(
                        machine, indicator, "", "", "0 4", "four", "5", "", "86,4", "0.120", "3", "", "-0.02", "0.02",
                        "up", "plus")),
                err::toString);
        String said = err.toString();
        for (String objection : List.of(
                "? this cannot be left out",
                "? 'cm' is not one of mm, in",
                "? '0,001' has a comma; write a decimal point",
                "? must be above 0, not -1 mm",
                "? must not be negative, as -3 mm is",
                "? two positions are needed, as in 'from -20 to 3400'",
                "? -20 mm must be above 3400 mm",
                "? no-such: no such profile: name a file, or one of ",
                "? must be 0.0 to 45.0, not 90",
                "? 'up' is not one of raises, lowers",
                "? '0' is not one of 1 to 9",
                "? 'four' is not one of 1 to 9",
                "? '86,4' has a comma; write a decimal point",
                "? must be above 0, not -0.02 mm",
                "? 'up' is not one of plus, minus")) {
            assertTrue(said.contains("  " + objection), objection + " missing in: " + said);
        }
        PlannedOffset offset = plan().offsets().get(0);
        assertEquals("swivel-axis-to-tilt-axis", offset.name());
        assertEquals(3, offset.entry().convention().factor());
        assertEquals(new Tolerance(-0.02, 0.02), offset.tolerance().orElseThrow());
        assertEquals(0, execute("plan", "check", file().toString()), err::toString);
    }

    @Test
    void answersThatEndLeaveNoFile() throws IOException {
        assertEquals(2, asked(MACHINE));
        assertTrue(err.toString().endsWith("; nothing was written, begin again\n"), err.toString());
        assertFalse(Files.exists(file()));
    }

    @Test
    void aFileThatIsThereIsNotTouched() throws IOException {
        Files.writeString(file(), "mine");
        assertEquals(2, asked(MACHINE));
        assertTrue(err.toString().contains("is there already; choose another name"), err.toString());
        assertEquals("mine", Files.readString(file()));
    }

    /** A head that tilts about B is the mirror image: X and Y change places, and the sense of the tilt. */
    @Test
    void inchesAndTheOtherHead() throws IOException {
        List<String> machine = List.of("Head", "router 4", "R4", "in", "", "", "", "-1 130", "-1 60", "-2 30");
        List<String> indicator = List.of("lever type", "L-2", "", "", "", "", "", "", "", "", "lowers");
        assertEquals(
                0,
                asked(answers(
                        machine, indicator, "", "B", "2 5", "0.75", "", "", "0.0000", "0.005", "minus", "", "0.0047",
                        "", "", "", "")),
                err::toString);
        PlannedOffset zero = plan().offsets().get(0);
        assertEquals(Axis.X, zero.axis());
        assertEquals(Direction.MINUS, zero.direction());
        assertEquals(Pressing.LOWERS, zero.pressing().orElseThrow());
        assertEquals(
                "B", ((AlignmentMethod) zero.method()).turned().orElseThrow().axis());
        assertEquals(19.05, zero.touches().get(0).feature().radius().value(), 1e-9);
        assertEquals("Y", zero.touches().get(0).sweep());
        assertEquals("zero of B", zero.entry().label());
        PlannedOffset length = plan().offsets().get(1);
        assertEquals("Swivel axis to tilt axis, along X", length.title());
        assertTrue(
                length.touches().get(0).setUp().contains("tilt B to -90"),
                length.touches().get(0).setUp());
        assertTrue(
                length.touches().get(1).setUp().contains("tilt B to 90"),
                length.touches().get(1).setUp());
    }
}
