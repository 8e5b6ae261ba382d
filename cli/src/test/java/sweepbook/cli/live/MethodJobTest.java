package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.time.Clock;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.OffsetResult.Outcome;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.Plans;
import sweepbook.cli.report.BookReport;

/** Every way to measure, from the plan through the job and the book to offset and report, on the simulated machine. */
@Timeout(40)
class MethodJobTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final String DRILL = "spindle-to-drill";
    private static final String SWIVEL = "swivel-axis-to-spindle-y";
    private static final String SWIVEL_X = "swivel-axis-to-spindle";
    private static final String[] BUMP = {"bump 0.05"};
    private static final long SEED = 23;

    @TempDir
    Path folder;

    private final VirtualSource source = new VirtualSource(SEED);
    private Book book;

    /** simulated truth */
    @Test
    void repeatsOfADifferenceArePooled() throws Exception {
        String plan = plan(DRILL, offset -> offset.put("repeats", 3));
        OffsetResult result = measured(
                plan,
                Stream.of(0, 1, 0, 1, 0, 1).map(i -> touch(DRILL, i, "end")).toArray(String[][]::new));
        assertEquals(6, result.touches().size());
        assertHoldsTheTruth(DRILL, result);
        assertTrue(report(result).contains("difference, made 3 times and pooled"));
    }

    /** simulated truth */
    @Test
    void repeatsOfAReversalArePooled() throws Exception {
        String plan = plan(SWIVEL, offset -> offset.put("repeats", 2));
        OffsetResult result = measured(
                plan, Stream.of(0, 1, 0, 1).map(i -> touch(SWIVEL, i, "end")).toArray(String[][]::new));
        assertHoldsTheTruth(SWIVEL, result);
    }

    @Test
    void repeatsThatDisagreeAreSaidAndCount() throws Exception {
        String plan = plan(DRILL, offset -> offset.put("repeats", 2).put("habit", "stop-on-crest"));
        OffsetResult result = measured(
                plan,
                touch(DRILL, 0, "crest"),
                touch(DRILL, 1, "crest"),
                touch(DRILL, 0, "crest"),
                BUMP,
                touch(DRILL, 1, "crest"));
        Outcome outcome = outcome(result);
        assertTrue(
                outcome.warnings().stream().anyMatch(w -> w.startsWith("the repeats disagree")),
                () -> "seed " + SEED + ": " + outcome.warnings());
    }

    /** simulated truth */
    @Test
    void theFirstFeatureTouchedAgainClosesTheMeasurement() throws Exception {
        OffsetResult result = measured(
                bracketed("jog-to-zero"), touch(DRILL, 0, "end"), touch(DRILL, 1, "end"), touch(DRILL, 0, "end"));
        assertHoldsTheTruth(DRILL, result);
        Estimate misclosure = outcome(result).besides().get(0).found();
        assertTrue(Math.abs(misclosure.value()) <= 0.003, () -> "seed " + SEED + ": misclosure " + misclosure);
        String report = report(result);
        assertTrue(report.contains("Misclosure"));
        assertTrue(!report.contains("bumped between the touches"));
    }

    /** simulated truth */
    @Test
    void aStandThatWasBumpedIsNamedByTheMisclosure() throws Exception {
        String plan = bracketed("stop-on-crest");
        OffsetResult result =
                measured(plan, touch(DRILL, 0, "crest"), touch(DRILL, 1, "crest"), BUMP, touch(DRILL, 0, "crest"));
        Outcome outcome = outcome(result);
        assertEquals(0.05, Math.abs(outcome.besides().get(0).found().value()), 0.005, "seed " + SEED);
        assertTrue(
                outcome.warnings().stream().anyMatch(w -> w.startsWith("stand or part moved: ")),
                () -> "seed " + SEED + ": " + outcome.warnings());
    }

    /** simulated truth: C at 0, 120 and 240; across X lies Y, into which a growing C turns it */
    @Test
    void equalStepsGiveTheEccentricityBothWays() throws Exception {
        String plan = plan(SWIVEL_X, offset -> {
            offset.put("method", "equal-steps").put("positions", "at-the-end");
            ArrayNode touches = (ArrayNode) offset.get("touches");
            touches.add(touches.get(0).deepCopy());
        });
        OffsetResult result = measured(
                plan,
                Stream.of(0, 120, 240)
                        .map(swivel_deg -> new String[] {"swivelled " + SWIVEL_X + " " + swivel_deg, "end"})
                        .toArray(String[][]::new));
        assertHoldsTheTruth(SWIVEL_X, result);
        Estimate across = outcome(result).besides().get(0).found();
        assertEquals(source.trueOffset_mm(SWIVEL), across.value(), 1.5 * across.u95(), () -> "seed " + SEED);
    }

    @Test
    void aBracketThatEndsElsewhereIsRefused() throws Exception {
        String wrong = plan(DRILL, offset -> offset.put("method", "bracketed-difference"));
        IOException fault = assertThrows(IOException.class, () -> PlanFile.parse("shop.json", wrong));
        assertTrue(
                fault.getMessage()
                        .endsWith(
                                "a measurement by bracketed-difference takes 3 touches, but 2 are planned; the last repeats the first"),
                fault.getMessage());
    }

    private static String bracketed(String habit) throws IOException {
        return plan(DRILL, offset -> {
            offset.put("habit", habit);
            offset.put("method", "bracketed-difference");
            ArrayNode touches = (ArrayNode) offset.get("touches");
            touches.add(touches.get(0).deepCopy());
        });
    }

    /** The bundled plan with one offset alone, changed. */
    static String plan(String offset, Consumer<ObjectNode> change) throws IOException {
        ObjectNode plan = (ObjectNode) JSON.readTree(Plans.text("joinery-head"));
        plan.remove("head");
        for (var offsets = plan.withArray("offsets").elements(); offsets.hasNext(); ) {
            if (!offsets.next().get("name").asText().equals(offset)) {
                offsets.remove();
            }
        }
        ObjectNode only = (ObjectNode) plan.withArray("offsets").get(0);
        only.put("positions", "at-the-end");
        change.accept(only);
        return JSON.writeValueAsString(plan);
    }

    private static String[] touch(String offset, int target, String typed) {
        return new String[] {"touch " + offset + " " + target, typed};
    }

    private OffsetResult measured(String plan, String[]... lines) throws Exception {
        Path file = folder.resolve("job.book");
        ScriptedPerson person =
                new ScriptedPerson(source, Stream.of(lines).flatMap(Stream::of).toArray(String[]::new));
        try (BookFile job =
                BookFile.begin(file, Clock.system(), new BookEvent.Begun("test", plan, "none", "Ada Brenn", ""))) {
            assertEquals(
                    MeasureJob.Ending.COMPLETE,
                    new MeasureJob(job, source, person).run(),
                    person.objections()::toString);
        }
        book = BookFile.read(file);
        return new Offsets(book).all().get(0);
    }

    private String report(OffsetResult result) {
        return BookReport.html(book, List.of(result), "");
    }

    private static Outcome outcome(OffsetResult result) {
        return result.result().asOptional().orElseThrow(() -> new AssertionError(result.result()));
    }

    /** Once and a half the U95: one seed alone may fall out of it. */
    private void assertHoldsTheTruth(String offset, OffsetResult result) {
        Estimate measured = outcome(result).offset().combined();
        assertEquals(
                source.trueOffset_mm(offset),
                measured.value(),
                1.5 * measured.u95(),
                () -> "seed " + SEED + ": " + measured);
    }
}
