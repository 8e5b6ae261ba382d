package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.acquisition.time.Clock;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Plans;
import sweepbook.cli.plan.TouchSeries;
import sweepbook.cli.report.BookReport;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;

/** Bundled plans as a person works through them on the simulated machine: readings, typed positions, book, offsets. */
@Timeout(40)
class BundledPlanJobTest {
    @TempDir
    Path folder;

    /** simulated truth; once and a half the U95, for one seed alone may fall out of it */
    @ParameterizedTest
    @CsvSource({
        "swivel-axis-to-spindle, 31",
        "swivel-axis-to-tilt-axis, 32",
        "tilt-axis-to-spindle, 34",
        "tilt-axis-to-gauge-face, 36",
    })
    void thePlanFindsWhatIsTrue(String name, long seed) throws Exception {
        VirtualJob job =
                name.startsWith("swivel-axis-to-spindle") ? JoineryScenario.of(seed) : JoineryScenario.tilting(seed);
        String plan = Plans.text(name);
        Book book = measured(plan, new VirtualSource(job));
        List<OffsetResult> results = new Offsets(book).all();
        for (OffsetResult result : results) {
            OffsetResult.Outcome outcome = result.result().asOptional().orElseThrow(() -> new AssertionError(result));
            double truth_mm = job.trueOffset_mm(result.planned().name());
            Estimate found = outcome.offset().combined();
            assertEquals(truth_mm, found.value(), 1.5 * found.u95(), () -> "seed " + seed + ": " + found);
            double sign = name.equals("tilt-axis-to-gauge-face") ? -1 : 1;
            assertEquals(
                    sign * truth_mm, outcome.entry().after().doubleValue(), 1.5 * found.u95() + 0.0005, "seed " + seed);
        }
        assertTrue(BookReport.html(book, results, "").contains("draws of the same lines"));
    }

    private Book measured(String plan, VirtualSource source) throws Exception {
        List<String> lines = new ArrayList<>();
        for (PlannedOffset offset : PlanFile.parse("plan", plan).offsets()) {
            for (int touch = 0; touch < offset.touches().size(); touch++) {
                lines.add("touch " + offset.name() + " " + touch);
                boolean both = offset.positions() == TouchSeries.Positions.ON_CREST_AND_AT_THE_END
                        && offset.touches().get(touch).sweep().length() == 1;
                if (both) {
                    lines.add("crest");
                }
                lines.add("end");
            }
        }
        Path file = folder.resolve("job.book");
        ScriptedPerson person = new ScriptedPerson(source, lines.toArray(String[]::new));
        try (BookFile book =
                BookFile.begin(file, Clock.system(), new BookEvent.Begun("test", plan, "none", "Ada Brenn", ""))) {
            assertEquals(
                    MeasureJob.Ending.COMPLETE,
                    new MeasureJob(book, source, person).run(),
                    person.objections()::toString);
        }
        return BookFile.read(file);
    }
}
