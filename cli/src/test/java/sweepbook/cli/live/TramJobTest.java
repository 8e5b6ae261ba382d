package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.time.Clock;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.OffsetResult.Outcome;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.report.BookReport;

/**
 * The upper end of a spindle leans by a known angle towards 30 degrees on the circle. Swung by it, the contact runs in a
 * plane square to the spindle, and is pressed in by what that plane lies below the middle there.
 */
@Timeout(40)
class TramJobTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final double LEAN_DEG = 0.02;
    private static final double DIRECTION_DEG = 30;
    private static final double RADIUS_MM = 150;
    private static final int STEPS = 4;
    private static final long SEED = 7;

    @TempDir
    Path folder;

    private Book book;

    /** simulated truth */
    @Test
    void theLeanComesOutWithItsSign() throws Exception {
        Outcome outcome = measured(0, "412.000").asOptional().orElseThrow();
        Estimate lean = outcome.offset().combined();
        assertEquals(LEAN_DEG * Math.cos(Math.toRadians(DIRECTION_DEG)), lean.value(), lean.u95(), "seed " + SEED);
        Estimate across = outcome.besides().get(1).found();
        double rise_mm = 2 * RADIUS_MM * Math.toRadians(LEAN_DEG) * Math.sin(Math.toRadians(DIRECTION_DEG));
        assertEquals(rise_mm, across.value(), across.u95(), "seed " + SEED);
        String report = BookReport.html(book, new Offsets(book).all(), "");
        assertTrue(report.contains("tram on a circle of radius 150.000 mm"));
        assertTrue(report.contains("Rise over the circle&#39;s diameter that way")
                || report.contains("Rise over the circle's diameter that way"));
    }

    /** simulated truth: from behind it leans the other way */
    @Test
    void theOppositeDirectionTurnsTheSign() throws Exception {
        Estimate lean =
                measured(180, "412.000").asOptional().orElseThrow().offset().combined();
        assertEquals(-LEAN_DEG * Math.cos(Math.toRadians(DIRECTION_DEG)), lean.value(), lean.u95(), "seed " + SEED);
    }

    @Test
    void anAxisThatMovedIsNoTram() throws Exception {
        Finding.NotDetermined<?> not = assertInstanceOf(Finding.NotDetermined.class, measured(0, "412.010"));
        assertEquals(
                "the typed positions differ, but no axis may move in a tram; make its touches again", not.reason());
    }

    /** The last position may differ from the others. */
    private Finding<Outcome> measured(double towards_deg, String lastPosition) throws Exception {
        List<RidingPerson.Stop> stops = new ArrayList<>();
        for (int step = 0; step < STEPS; step++) {
            stops.add(new RidingPerson.Stop(
                    pressed_mm(360.0 * step / STEPS), "", step == STEPS - 1 ? lastPosition : "412.000"));
        }
        Path file = folder.resolve("job.book");
        StandingSource source = new StandingSource(SEED);
        try (BookFile job = BookFile.begin(
                file, Clock.system(), new BookEvent.Begun("test", plan(towards_deg), "none", "Ada Brenn", ""))) {
            assertEquals(
                    MeasureJob.Ending.COMPLETE, new MeasureJob(job, source, new RidingPerson(source, stops)).run());
        }
        book = BookFile.read(file);
        OffsetResult result = new Offsets(book).all().get(0);
        return result.result();
    }

    /** The spindle's axis leans over; of its plane n . x = 0 the height at a point of the circle is -(nx x + ny y) / nz. */
    private static double pressed_mm(double angle_deg) {
        double nx = Math.sin(Math.toRadians(LEAN_DEG)) * Math.cos(Math.toRadians(DIRECTION_DEG));
        double ny = Math.sin(Math.toRadians(LEAN_DEG)) * Math.sin(Math.toRadians(DIRECTION_DEG));
        double nz = Math.cos(Math.toRadians(LEAN_DEG));
        double x_mm = RADIUS_MM * Math.cos(Math.toRadians(angle_deg));
        double y_mm = RADIUS_MM * Math.sin(Math.toRadians(angle_deg));
        return (nx * x_mm + ny * y_mm) / nz;
    }

    private static String plan(double towards_deg) throws Exception {
        ObjectNode plan = (ObjectNode) JSON.readTree(MethodJobTest.plan("spindle-to-drill-z", offset -> {
            offset.put("method", "tram").put("circleRadius", "150.000 mm").put("towards_deg", towards_deg);
            offset.put("habit", "hold-still");
            offset.remove("tolerance");
            offset.withObject("entry").put("before", "0.0000 deg").put("use", "added-to-entry");
            ArrayNode touches = offset.putArray("touches");
            for (int step = 0; step < STEPS; step++) {
                touches.addObject()
                        .put("feature", "table")
                        .put("setUp", "swing on by 90")
                        .put("sweep", "none");
            }
        }));
        plan.withArray("features").addObject().put("name", "table");
        return plan.toString();
    }
}
