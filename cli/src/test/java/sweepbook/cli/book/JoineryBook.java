package sweepbook.cli.book;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

/** A real book of the virtual joinery, with everything in it that can go wrong on the way. */
public final class JoineryBook {
    /** Somebody's idea of a joke. */
    private static final String NASTY = "<script>alert(1)</script> & \"quoted\" \u202e\u0007";

    private final BookFile book;
    private final VirtualJob job;

    private JoineryBook(BookFile book, VirtualJob job) {
        this.book = book;
        this.job = job;
    }

    /** Writes the book; one touch was knocked and made again, one broken off, one typed text refused, one doubted, one touch skipped. */
    public static void write(Path file, long seed, Instant begun) throws IOException {
        String plan = Plans.text("joinery-head");
        BookEvent.Begun first = new BookEvent.Begun(
                "sweepbook 0.1.0", plan, "text-mm-stream", "Ilse Marwood " + NASTY, "19.4 degrees C, hall door shut");
        try (BookFile book = BookFile.begin(file, new SteppingClock(begun), first)) {
            new JoineryBook(book, JoineryScenario.of(seed)).measure();
        }
    }

    private void measure() throws IOException {
        knocked(JoineryScenario.SWIVEL_TO_SPINDLE, 0);
        for (String offset : List.of(
                JoineryScenario.SWIVEL_TO_SPINDLE,
                JoineryScenario.SWIVEL_TO_SPINDLE_Y,
                JoineryScenario.SPINDLE_TO_DRILL)) {
            touch(offset, 0);
            if (offset.equals(JoineryScenario.SWIVEL_TO_SPINDLE_Y)) {
                brokenOff(offset, 1);
            }
            touch(offset, 1);
        }
        touch(JoineryScenario.SPINDLE_TO_DRILL_Z, 0);
        besideTheLast();
        book.add(new BookEvent.Skipped(JoineryScenario.SPINDLE_TO_DRILL_Z, 1));
        book.add(new BookEvent.Left());
    }

    private void knocked(String offset, int touch) throws IOException {
        VirtualTouch made = job.touch(offset, touch);
        int attempt = begin(made);
        book.add(new BookEvent.Incident(attempt, 4.25, "dropped '+00.1\u00007': the frame is cut"));
        book.add(new BookEvent.Typed(attempt, Moment.ON_CREST, "12,5", Fate.REFUSED, "'12,5' has a comma"));
        book.add(new BookEvent.SetAside(attempt, "knocked the stand " + NASTY));
    }

    /** A second indicator watched the table. */
    private void besideTheLast() throws IOException {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < 50; i++) {
            readings.add(new Reading(2.5 + 0.1 * i, LengthUnit.IN.toMm(0.0005 * (i % 7)), false));
        }
        int attempt = book.nextAttempt() - 1;
        book.add(new BookEvent.Beside(attempt, "table " + NASTY, LengthUnit.IN, LengthUnit.IN.toMm(0.0005), readings));
    }

    /** The power failed before the first reading. */
    private void brokenOff(String offset, int touch) throws IOException {
        book.add(new BookEvent.AttemptBegun(
                book.nextAttempt(), offset, touch, "tcp:127.0.0.1:40123", LengthUnit.MM, 0.001));
    }

    private void touch(String offset, int touch) throws IOException {
        VirtualTouch made = job.touch(offset, touch);
        int attempt = begin(made);
        book.add(new BookEvent.Typed(attempt, Moment.ON_CREST, made.onCrest(), Fate.TAKEN, ""));
        if (offset.equals(JoineryScenario.SPINDLE_TO_DRILL)) {
            String why = "the new entry would differ by more than 3.0 mm";
            book.add(new BookEvent.Typed(attempt, Moment.AT_THE_END, made.atTheEnd(), Fate.DOUBTED, why));
            book.add(new BookEvent.Typed(attempt, Moment.AT_THE_END, made.atTheEnd() + "!", Fate.INSISTED, why));
        } else {
            book.add(new BookEvent.Typed(attempt, Moment.AT_THE_END, made.atTheEnd(), Fate.TAKEN, ""));
        }
        book.add(new BookEvent.Kept(attempt));
    }

    private int begin(VirtualTouch made) throws IOException {
        int attempt = book.nextAttempt();
        Trace trace = made.trace();
        book.add(new BookEvent.AttemptBegun(
                attempt, made.offset(), made.touch(), "tcp:127.0.0.1:40123", trace.unit(), trace.resolution_mm()));
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < trace.size(); i++) {
            readings.add(trace.reading(i));
        }
        book.add(new BookEvent.Received(attempt, readings));
        return attempt;
    }

    /** Ten seconds later each time it is asked. */
    private static final class SteppingClock implements Clock {
        private final Instant start;
        private int steps;

        SteppingClock(Instant start) {
            this.start = start;
        }

        @Override
        public double monotonic_s() {
            return 10.0 * steps;
        }

        @Override
        public Instant wall() {
            steps++;
            return start.plusSeconds(10L * steps);
        }
    }
}
