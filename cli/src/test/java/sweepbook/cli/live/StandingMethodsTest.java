package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.source.ReadingSources;
import sweepbook.acquisition.time.Clock;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.OffsetResult.Outcome;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.report.BookReport;

/**
 * Ways to measure by a contact that stands on faces which the head brings to it, X going minus. With a face's place c on
 * X, a stand at K and pressing that raises the reading, the indicator shows K - c - X.
 */
@Timeout(40)
class StandingMethodsTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final double K_MM = 1000;
    private static final long SEED = 9;

    @TempDir
    Path folder;

    private final List<RidingPerson.Stop> stops = new ArrayList<>();
    private final List<String> touched = new ArrayList<>();
    private Book book;

    /** simulated truth: one position mistyped by 0.05 mm */
    @Test
    void theTouchThatDoesNotFitIsNamed() throws Exception {
        threeFaces(3, 0.05);
        List<OffsetResult> results = measured(plan(network("face one", "face two"), StandingMethodsTest::alsoToThree));
        Outcome toTwo = outcome(results.get(0));
        assertEquals(1, toTwo.warnings().size(), () -> toTwo.warnings().toString());
        assertTrue(
                toTwo.warnings().get(0).startsWith("touch 5 (face two) does not fit the others: a mistake of 0.0")
                        && toTwo.warnings().get(0).endsWith("make it again"),
                () -> "seed " + SEED + ": " + toTwo.warnings());
        assertEquals(9, toTwo.residuals().size());
        assertEquals(
                6, toTwo.residuals().stream().mapToDouble(r -> r.redundancy()).sum(), 1e-9);
        Estimate toThree = outcome(results.get(1)).offset().combined();
        assertEquals(200, toThree.value(), toThree.u95(), () -> "seed " + SEED + ": " + toThree);
        String report = BookReport.html(book, results, "");
        assertTrue(report.contains("How the touches fit each other"));
        assertTrue(report.contains("Its touches are those of sought; they stand there."));
    }

    /** Two touches of one face contradict each other; nothing tells which is wrong. */
    @Test
    void touchesThatCannotBeToldApartAreNamedTogether() throws Exception {
        threeFaces(2, 0.05);
        Outcome toTwo = outcome(measured(plan(network("face one", "face two"))).get(0));
        assertTrue(
                toTwo.warnings().get(0).startsWith("touch 2 (face two) or touch 5 (face two) does not fit the others"),
                () -> "seed " + SEED + ": " + toTwo.warnings());
    }

    /** simulated truth */
    @Test
    void touchesThatAgreeGiveTheTruthAndNoName() throws Exception {
        threeFaces(2, 0);
        Outcome toTwo = outcome(measured(plan(network("face one", "face two"))).get(0));
        Estimate found = toTwo.offset().combined();
        assertEquals(124.8, found.value(), found.u95(), () -> "seed " + SEED + ": " + found);
        assertEquals(List.of(), toTwo.warnings());
    }

    @Test
    void whatIsMadeSoFarCountsAndSaysWhatNothingControls() throws Exception {
        touch("face one", 0, 0);
        touch("face two", 124.8, 0);
        touched.add("face one");
        Outcome toTwo = outcome(measured(plan(network("face one", "face two"))).get(0));
        assertEquals(124.8, toTwo.offset().value(), 0.003, "seed " + SEED);
        assertTrue(
                toTwo.warnings()
                        .get(0)
                        .startsWith("nothing controls touch 1 (face one), touch 2 (face two): a mistake"),
                () -> toTwo.warnings().toString());
    }

    @Test
    void aPointThatHangsFreeIsNamedBeforeAnythingIsMeasured() throws Exception {
        threeFaces(2, 0);
        ObjectNode plan = plan(network("face one", "face two"));
        ArrayNode touches = (ArrayNode) plan.withArray("offsets").get(0).get("touches");
        ((ObjectNode) touches.get(2)).put("stand", "B");
        ((ObjectNode) touches.get(5)).put("stand", "B");
        IOException fault = assertThrows(IOException.class, () -> PlanFile.parse("shop.json", plan.toString()));
        assertTrue(
                fault.getMessage()
                        .contains("face one and face three hang free of each other: touch both from one stand"),
                fault.getMessage());
    }

    /** simulated truth: readings 1 % too long, going in and coming out alike */
    @Test
    void aScaleCheckTellsScaleAndSpan() throws Exception {
        for (int i = 0; i <= 8; i++) {
            double depth_mm = 0.1 * (i <= 4 ? i : 8 - i);
            stop("face one", 1.01 * depth_mm, 0, K_MM - depth_mm);
        }
        Outcome outcome = outcome(measured(plan(offset ->
                        offset.put("method", "scale-check").withObject("entry").put("before", "0.000 mm")))
                .get(0));
        Estimate off = outcome.offset().combined();
        assertEquals(0.004, off.value(), off.u95(), () -> "seed " + SEED + ": " + off);
        assertTrue(off.u95() < 0.02, off::toString);
        assertEquals(1.01, besides(outcome, "reading for a movement of one").value(), 0.003);
        assertEquals(
                0,
                besides(outcome, "hysteresis, reading going in less coming out").value(),
                0.001);
    }

    /** simulated truth: a slope of 0.03 mm on a metre */
    @Test
    void parallelismIsToldOverItsLength() throws Exception {
        for (double travel_mm : new double[] {100, 300, 500, 700, 900}) {
            stop("face one", 3e-5 * travel_mm, travel_mm, K_MM);
        }
        Outcome outcome = outcome(measured(plan(offset -> offset.put("method", "parallelism")
                        .put("travelAxis", "Y")
                        .put("over", "500.000 mm")
                        .withObject("entry")
                        .put("before", "0.000 mm")))
                .get(0));
        Estimate found = outcome.offset().combined();
        // X grows where the reading falls.
        assertEquals(-0.015, found.value(), found.u95(), () -> "seed " + SEED + ": " + found);
        assertTrue(besides(outcome, "straightness, greatest less least off the line")
                        .value()
                < 0.002);
    }

    /** law: each correction by hand; the reading of the second face is 0.2 mm, true only 0.098 mm */
    @Test
    void leverCalibrationAndTemperatureReachTheResultAndItsBudget() throws Exception {
        stop("face one", 0, 0, 500);
        stop("face two", 0.2, 0, 400);
        ObjectNode plan = plan(
                offset -> offset.put("method", "difference").withObject("entry").put("before", "99.900 mm"));
        plan.withObject("indicator").put("leverAngle_deg", 60).put("leverAngleU95_deg", 1);
        ArrayNode table = plan.withObject("indicator").putArray("calibration");
        table.addObject().put("reading", "-0.200 mm").put("deviation", "-0.004 mm");
        table.addObject().put("reading", "0.400 mm").put("deviation", "0.008 mm");
        plan.withObject("surroundings")
                .putObject("temperature")
                .put("part_C", 25)
                .put("scale_C", 25)
                .put("scaleU95_K", 0.5)
                .put("partExpansion_per_K", 23.5e-6)
                .put("partExpansionU95_per_K", 1e-6)
                .put("scaleExpansion_per_K", 11.5e-6);
        Outcome outcome = outcome(measured(plan).get(0));
        assertEquals(
                (100 - 0.5 * (0.2 - 0.004)) * (1 - 12e-6 * 5), outcome.offset().value(), 0.0006, "seed " + SEED);
        List<String> sources =
                outcome.offset().lines().stream().map(BudgetLine::source).toList();
        assertTrue(sources.contains("scale of the readings"), sources::toString);
        assertTrue(sources.contains("expansion of part against scale"), sources::toString);
        assertTrue(sources.contains("temperature of part against scale"), sources::toString);
        assertFalse(sources.contains("expansion of the machine's scale"), sources::toString);
    }

    /** Beyond its calibration nobody knows what a reading is worth. */
    @Test
    void aReadingBeyondItsCalibrationIsRefused() throws Exception {
        stop("face one", 0, 0, 500);
        stop("face two", 0.2, 0, 400);
        ObjectNode plan = plan(
                offset -> offset.put("method", "difference").withObject("entry").put("before", "99.900 mm"));
        ArrayNode table = plan.withObject("indicator").putArray("calibration");
        table.addObject().put("reading", "-0.100 mm").put("deviation", "0.000 mm");
        table.addObject().put("reading", "0.100 mm").put("deviation", "0.000 mm");
        String result = measured(plan).get(0).result().toString();
        assertTrue(result.matches("(?s).*touch 2: reading 0\\.(19|20).*"), result);
        assertTrue(result.contains("lies outside the calibrated -0.1 to 0.1 mm"), result);
    }

    /** simulated truth: a recording has no pause in which one touch ends and the next begins */
    @Test
    void aRestInARecordingCountsForOneTouchAlone() throws Exception {
        for (double reading_mm : new double[] {0, 0.03, 0.008}) {
            stop("face one", reading_mm, 500, K_MM);
        }
        Path trace = folder.resolve("recorded.csv");
        StringBuilder rows = new StringBuilder("time_s,reading_mm\n");
        for (int i = 0; i < 3 * 200; i++) {
            double between = Math.max(0, i % 200 - 150) / 50.0;
            double here_mm = stops.get(i / 200).reading_mm();
            double next_mm = stops.get(Math.min(2, i / 200 + 1)).reading_mm();
            rows.append(String.format(Locale.ROOT, "%.2f,%.3f%n", 0.04 * i, here_mm + between * (next_mm - here_mm)));
        }
        Files.writeString(trace, rows);
        Path typed = folder.resolve("typed");
        Files.writeString(typed, "100.000\n1000.000\n200.000\n1000.000\n300.000\n1000.000\n");
        ObjectNode plan = plan(offset -> offset.put("method", "parallelism")
                .put("travelAxis", "Y")
                .put("over", "200.000 mm")
                .withObject("entry")
                .put("before", "0.000 mm"));
        Path file = folder.resolve("job.book");
        try (BookFile job = BookFile.begin(
                        file,
                        Clock.system(),
                        new BookEvent.Begun("test", plan.toPrettyString(), "none", "Ada Brenn", ""));
                ReadingSource source = ReadingSources.open(
                        LinkAddress.parse("replay:" + trace),
                        Optional.empty(),
                        Clock.system(),
                        ReadingSources.PATIENCE)) {
            new MeasureJob(job, source, new PositionsFile(typed, 0, new PrintWriter(Writer.nullWriter()))).run();
        }
        book = BookFile.read(file);
        List<OffsetResult.TouchResult> made = new Offsets(book).all().get(0).touches();
        for (int i = 0; i < 3; i++) {
            assertEquals(
                    stops.get(i).reading_mm(),
                    made.get(i)
                            .findings()
                            .stableZero()
                            .asOptional()
                            .orElseThrow()
                            .level()
                            .value(),
                    0.001,
                    "touch " + (i + 1));
        }
    }

    private void threeFaces(int rounds, double mistake_mm) {
        for (int round = 0; round < rounds; round++) {
            touch("face one", 0, 0);
            touch("face two", 124.8, round == 1 ? mistake_mm : 0);
            touch("face three", 200, 0);
        }
    }

    private void touch(String face, double place_mm, double mistake_mm) {
        double reading_mm = 0.01 * stops.size();
        stop(face, reading_mm, 0, K_MM - place_mm - reading_mm + mistake_mm);
    }

    private void stop(String face, double reading_mm, double travel_mm, double position_mm) {
        touched.add(face);
        stops.add(new RidingPerson.Stop(reading_mm, shown(travel_mm), shown(position_mm)));
    }

    private static String shown(double position_mm) {
        return BigDecimal.valueOf(position_mm).setScale(3, RoundingMode.HALF_UP).toPlainString();
    }

    private static Consumer<ObjectNode> network(String from, String to) {
        return offset -> offset.put("method", "network").put("from", from).put("to", to);
    }

    private static void alsoToThree(ArrayNode offsets) {
        offsets.addObject()
                .put("name", "to-three")
                .put("title", "One to three")
                .put("method", "network")
                .put("from", "face one")
                .put("to", "face three")
                .put("sameTouchesAs", "sought")
                .putObject("entry")
                .put("label", "three")
                .put("before", "200.000 mm");
    }

    private ObjectNode plan(Consumer<ObjectNode> change) throws IOException {
        return plan(change, offsets -> {});
    }

    private ObjectNode plan(Consumer<ObjectNode> change, Consumer<ArrayNode> more) throws IOException {
        ObjectNode plan = (ObjectNode) JSON.readTree(MethodJobTest.plan("spindle-to-drill", offset -> {
            offset.put("name", "sought").put("habit", "hold-still");
            offset.remove("tolerance");
            ArrayNode touches = offset.putArray("touches");
            touched.forEach(face -> touches.addObject()
                    .put("feature", face)
                    .put("setUp", "bring it to the contact")
                    .put("sweep", "none"));
            change.accept(offset);
        }));
        touched.stream()
                .distinct()
                .forEach(face -> plan.withArray("features").addObject().put("name", face));
        more.accept(plan.withArray("offsets"));
        return plan;
    }

    private List<OffsetResult> measured(ObjectNode plan) throws Exception {
        Path file = folder.resolve("job.book");
        StandingSource source = new StandingSource(SEED);
        try (BookFile job = BookFile.begin(
                file, Clock.system(), new BookEvent.Begun("test", plan.toPrettyString(), "none", "Ada Brenn", ""))) {
            new MeasureJob(job, source, new RidingPerson(source, stops)).run();
        }
        book = BookFile.read(file);
        return new Offsets(book).all();
    }

    private static Outcome outcome(OffsetResult result) {
        return result.result().asOptional().orElseThrow(() -> new AssertionError(result.result()));
    }

    private static Estimate besides(Outcome outcome, String what) {
        return outcome.besides().stream()
                .filter(beside -> beside.what().equals(what))
                .map(Beside::found)
                .findFirst()
                .orElseThrow(() -> new AssertionError(outcome.besides()));
    }
}
