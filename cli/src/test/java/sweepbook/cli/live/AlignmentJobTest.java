package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.List;
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
import sweepbook.cli.report.BookReport;

/**
 * The head carries a bar along Y past an indicator on the table that is pressed by X going plus. From plus Y the bar
 * leans by a known angle towards plus X, so C, which turns X towards Y, has to turn by the same angle in its plus
 * direction to bring it back.
 */
@Timeout(40)
class AlignmentJobTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final double LEAN_DEG = 0.05;
    private static final double SHOWN_X_MM = 1210.25;
    private static final long SEED = 5;

    @TempDir
    Path folder;

    private Book book;

    /** A spot at a travel: where the bar stands there, and how much higher it is there than a straight one. */
    private record Place(String spot, double travel_mm, double warp_mm) {
        /** The bar's surface at the contact as the head stands at the travel: by similar triangles, and its warp. */
        double reading_mm() {
            return -(travel_mm - 500) * Math.sin(Math.toRadians(LEAN_DEG)) / Math.cos(Math.toRadians(LEAN_DEG))
                    + warp_mm;
        }
    }

    /** simulated truth */
    @Test
    void twoEndsGiveTheTurn() throws Exception {
        Outcome outcome = measured("", new Place("", 100, 0), new Place("", 900, 0));
        Estimate turn = outcome.offset().combined();
        assertEquals(LEAN_DEG, turn.value(), turn.u95(), "seed " + SEED);
        assertEquals(
                800 * Math.tan(Math.toRadians(LEAN_DEG)),
                Math.abs(outcome.besides().get(0).found().value()),
                0.005,
                "seed " + SEED);
        BigDecimal after = outcome.entry().after();
        assertEquals(4, after.scale());
        assertEquals(0.02 + LEAN_DEG, after.doubleValue(), turn.u95() + 1e-4);
    }

    /** simulated truth */
    @Test
    void manyPlacesGiveTheTurn() throws Exception {
        Outcome outcome = measured(
                "",
                new Place("", 100, 0),
                new Place("", 300, 0),
                new Place("", 500, 0),
                new Place("", 700, 0),
                new Place("", 900, 0));
        Estimate turn = outcome.offset().combined();
        assertEquals(LEAN_DEG, turn.value(), turn.u95(), "seed " + SEED);
    }

    /** simulated truth: a warp of half a millimetre would count as 0.036 degrees if the spots were not told apart */
    @Test
    void markedSpotsTakeTheWarpOut() throws Exception {
        Outcome outcome = measured(
                "spot",
                new Place("near", 100, 0),
                new Place("far", 120, 0.5),
                new Place("near", 880, 0),
                new Place("far", 900, 0.5));
        Estimate turn = outcome.offset().combined();
        assertEquals(LEAN_DEG, turn.value(), turn.u95(), "seed " + SEED);
    }

    @Test
    void theReportSaysTheAngleInEveryWayAndEachTravel() throws Exception {
        measured("", new Place("", 100, 0), new Place("", 900, 0));
        List<OffsetResult> results = new Offsets(book).all();
        String report = BookReport.html(book, results, "");
        assertTrue(report.contains("Y of the travel"));
        assertTrue(report.contains("arc seconds"));
        assertTrue(report.contains("900.000 mm, typed"));
        assertTrue(report.contains("Rise over the whole travel"));
    }

    @Test
    void aSpotThatIsSeenOnceIsRefused() {
        refused(
                "spot 'near' is touched once only: bring it to both ends",
                plan("spot", "0.0200 deg", "C", new Place("near", 100, 0), new Place("far", 900, 0)));
    }

    @Test
    void anAngleWithoutItsUnitIsRefused() {
        refused(
                "must be an angle in deg, not 0.020 mm",
                plan("", "0.020 mm", "C", new Place("", 100, 0), new Place("", 900, 0)));
    }

    @Test
    void aRotaryAxisThatCannotTakeTheLeanAwayIsRefused() {
        refused(
                "A does not turn Y towards or away from X",
                plan("", "0.0200 deg", "A", new Place("", 100, 0), new Place("", 900, 0)));
    }

    private static void refused(String why, ObjectNode plan) {
        IOException fault = assertThrows(IOException.class, () -> PlanFile.parse("shop.json", plan.toPrettyString()));
        assertTrue(fault.getMessage().endsWith(why), fault.getMessage());
    }

    private Outcome measured(String spot, Place... places) throws Exception {
        Path file = folder.resolve("job.book");
        String plan = plan(spot, "0.0200 deg", "C", places).toPrettyString();
        StandingSource source = new StandingSource(SEED);
        try (BookFile job =
                BookFile.begin(file, Clock.system(), new BookEvent.Begun("test", plan, "none", "Ada Brenn", ""))) {
            RidingPerson typist = new RidingPerson(
                    source,
                    Stream.of(places)
                            .map(place -> new RidingPerson.Stop(
                                    place.reading_mm(), shown(place.travel_mm()), shown(SHOWN_X_MM)))
                            .toList());
            assertEquals(MeasureJob.Ending.COMPLETE, new MeasureJob(job, source, typist).run());
        }
        book = BookFile.read(file);
        OffsetResult result = new Offsets(book).all().get(0);
        return result.result().asOptional().orElseThrow(() -> new AssertionError(result.result()));
    }

    private static String shown(double position_mm) {
        return BigDecimal.valueOf(position_mm).setScale(3, RoundingMode.HALF_UP).toPlainString();
    }

    private static ObjectNode plan(String spot, String before, String rotary, Place... places) {
        try {
            ObjectNode plan = (ObjectNode) JSON.readTree(MethodJobTest.plan("spindle-to-drill", offset -> {
                offset.put("method", "alignment").put("travelAxis", "Y").put("rotary", rotary);
                offset.put("habit", "hold-still").put("direction", "plus");
                offset.remove("tolerance");
                offset.withObject("entry").put("before", before).put("use", "added-to-entry");
                ArrayNode touches = offset.putArray("touches");
                for (Place place : places) {
                    ObjectNode touch = touches.addObject();
                    touch.put("feature", "bar")
                            .put("setUp", "let it ride along the bar")
                            .put("sweep", "none");
                    if (!spot.isEmpty()) {
                        touch.put("spot", place.spot());
                    }
                }
            }));
            plan.withArray("features").addObject().put("name", "bar");
            return plan;
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
