package sweepbook.cli.demo;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.source.ReadingSources;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.book.ReadingRule;
import sweepbook.cli.live.MeasureJob;
import sweepbook.cli.live.NotDeterminedException;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.serve.IndicatorServer;
import sweepbook.simulator.serve.Pace;

/**
 * The bundled plan measured on the simulated machine over a loopback link, by the same code that measures a real one.
 *
 * @param seed makes the same machine, hand and noise again
 * @param unit in which controller and indicator show lengths
 * @param pace at the true cadence, or as fast as the link takes it; then the virtual indicator stamps its readings
 */
public record DemoRun(long seed, LengthUnit unit, Pace pace) {
    /**
     * An offset beside the truth.
     *
     * @param truth_mm what the simulated machine was built with
     * @param plain_mm the same by plain maximum and last reading
     */
    public record Comparison(OffsetResult result, double truth_mm, Finding<Double> plain_mm) {
        public Finding<Estimate> measured() {
            return result.result().map(outcome -> outcome.offset().combined());
        }
    }

    /** Measures into a new book. */
    public List<Comparison> into(Path bookFile, String version, PrintWriter told)
            throws IOException, NotDeterminedException {
        String plan = unit == LengthUnit.MM ? "joinery-head" : "joinery-head-inch";
        String planText = Plans.text(plan);
        boolean timed = unit == LengthUnit.IN || pace.times() != 1;
        String profileName = timed ? "text-timed-stream" : "text-mm-stream";
        IndicatorProfile profile = Profiles.bundled(profileName);
        VirtualJob job = unit == LengthUnit.MM ? JoineryScenario.of(seed) : JoineryScenario.inInches(seed);
        Clock clock = Clock.system();
        BookEvent.Begun begun = new BookEvent.Begun(
                version, planText, profileName, "the virtual technician", "simulated, seed " + seed + "; 20 degrees C");
        List<Book.Station> stations = Book.stations(PlanFile.parse(plan, planText));
        try (IndicatorServer server = IndicatorServer.onLoopback(job, profile, pace, 0);
                WatchedSource source = new WatchedSource(ReadingSources.open(
                        new LinkAddress.Tcp("localhost", server.port()),
                        Optional.of(profile),
                        clock,
                        ReadingSources.PATIENCE));
                BookFile book = BookFile.begin(bookFile, clock, begun);
                VirtualPerson person = new VirtualPerson(server, source, stations, told)) {
            new MeasureJob(book, source, person).run();
            return compared(book.book(), job);
        }
    }

    private static List<Comparison> compared(Book book, VirtualJob job) {
        List<OffsetResult> estimated = new Offsets(book).all();
        List<OffsetResult> plain = new Offsets(book, ReadingRule.MAXIMUM_AND_LAST).all();
        List<Comparison> compared = new ArrayList<>();
        for (int i = 0; i < estimated.size(); i++) {
            compared.add(new Comparison(
                    estimated.get(i),
                    job.trueOffset_mm(estimated.get(i).planned().name()),
                    plain.get(i).result().map(outcome -> outcome.offset().value())));
        }
        return compared;
    }
}
