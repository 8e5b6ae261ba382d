package sweepbook.cli.live;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.cli.book.Book.Station;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset.Habit;
import sweepbook.cli.plan.PlannedOffset.Positions;

/** One attempt at one touch while it is made: every reading goes to the book and to the reader of the sweep. */
final class TouchCapture {
    /** A line of readings a quarter of a second: what a crash can take, and what a disk can sync without sweat. */
    private static final double FLUSH_AFTER_S = 0.25;

    private static final int FLUSH_AT = 256;

    private final BookFile book;
    private final Plan plan;
    private final Station station;
    private final LengthUnit unit;
    private final double resolution_mm;
    private final int number;
    private final SweepReader reader;
    private final List<Reading> pending = new ArrayList<>();
    private OptionalDouble positionOnCrest_mm = OptionalDouble.empty();
    private boolean ended;

    TouchCapture(BookFile book, Plan plan, Station station, String link, LengthUnit unit, double resolution_mm)
            throws IOException {
        this.book = book;
        this.plan = plan;
        this.station = station;
        this.unit = unit;
        this.resolution_mm = resolution_mm;
        this.number = book.nextAttempt();
        this.reader = new SweepReader(new SweepSettings(station.offset().pressing(), resolution_mm));
        book.add(new BookEvent.AttemptBegun(
                number, station.offset().name(), station.touch(), link, unit, resolution_mm));
    }

    /** Which touch of which offset is tried. */
    Station station() {
        return station;
    }

    LengthUnit unit() {
        return unit;
    }

    double resolution_mm() {
        return resolution_mm;
    }

    void receive(Reading reading) throws IOException {
        pending.add(reading);
        reader.add(reading.time_s(), reading.reading_mm());
        if (pending.size() >= FLUSH_AT || reading.time_s() - pending.get(0).time_s() >= FLUSH_AFTER_S) {
            flush();
        }
    }

    void incident(double time_s, String what) throws IOException {
        flush();
        book.add(new BookEvent.Incident(number, time_s, what));
    }

    /** Nothing more will come. */
    void end() {
        ended = true;
    }

    boolean hasEnded() {
        return ended;
    }

    void flush() throws IOException {
        if (!pending.isEmpty()) {
            book.add(new BookEvent.Received(number, pending));
            pending.clear();
        }
    }

    SweepNow now() {
        return reader.now();
    }

    SweepFindings findings() {
        return reader.findings();
    }

    OptionalDouble positionOnCrest_mm() {
        return positionOnCrest_mm;
    }

    /** What the person is to type now, if anything. */
    Person.Question question() {
        SweepNow now = now();
        boolean still = now.phase() == SweepNow.Phase.STABLE;
        if (wantsPositionOnCrest() && now.passes() > 0 && now.clicks() == 0 && still) {
            return Person.Question.POSITION_ON_CREST;
        }
        return ended || complete(now, still) ? Person.Question.POSITION_AT_THE_END : Person.Question.SWEEPING;
    }

    private boolean wantsPositionOnCrest() {
        return station.offset().positions() == Positions.ON_CREST_AND_AT_THE_END && positionOnCrest_mm.isEmpty();
    }

    private boolean complete(SweepNow now, boolean still) {
        Habit habit = station.offset().habit();
        if (station.planned().feature() instanceof Feature.Flat) {
            return still && (habit != Habit.JOG_TO_ZERO || isNearZero(now));
        }
        if (now.passes() == 0) {
            return false;
        }
        return switch (habit) {
            case SWEEP_ONLY -> still || now.phase() == SweepNow.Phase.FREE;
            case STOP_ON_CREST -> still;
            case JOG_TO_ZERO -> still && now.clicks() > 0 && isNearZero(now);
        };
    }

    /** Within a jog step of zero there is nothing left to jog. */
    boolean isNearZero(SweepNow now) {
        return Math.abs(now.reading_mm()) <= plan.machine().jogStep().mm();
    }

    void typed(Moment moment, String text, Fate fate, String why) throws IOException {
        flush();
        book.add(new BookEvent.Typed(number, moment, text, fate, why));
    }

    void takenOnCrest(double position_mm) {
        positionOnCrest_mm = OptionalDouble.of(position_mm);
    }

    void keep() throws IOException {
        flush();
        book.add(new BookEvent.Kept(number));
    }

    void setAside(String why) throws IOException {
        flush();
        book.add(new BookEvent.SetAside(number, why));
    }
}
