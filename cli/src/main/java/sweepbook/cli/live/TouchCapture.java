package sweepbook.cli.live;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.cli.book.Book.Station;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.TouchSeries.Habit;
import sweepbook.cli.plan.TouchSeries.Positions;

/** One attempt at one touch while it is made: what its readings say so far, and what is asked of the person. */
final class TouchCapture {
    /** While it stands, the whole trace is looked at as often as this. */
    private static final double LOOK_AGAIN_S = 1;

    /** Nobody brings another place to the contact in so short a time. */
    private static final double HARDLY_MOVED_S = 0.5;

    /** Nobody waits so long between two clicks. */
    private static final double HANDS_OFF_S = 3;

    /** A position on the way to the one at the end, as it was typed. */
    record Noted(Moment moment, String text, double position_mm) {}

    private final AttemptRecord record;
    private final Plan plan;
    private final Station station;
    private final LengthUnit unit;
    private final double resolution_mm;
    private final SweepReader reader;
    private Optional<SweepFindings> findings = Optional.empty();
    private boolean crestIsNotNoted;
    private final Deque<Noted> noted = new ArrayDeque<>();
    private Optional<String> lacking = Optional.empty();
    private boolean ended;
    /** When the touch before ended, until the first reading of this one has come. */
    private OptionalDouble readBefore_s;

    /** Whether nobody can have moved anything since the touch before, as in a recording. */
    private boolean beganInRest;

    private double last_s;
    private double lowest_mm = Double.POSITIVE_INFINITY;
    private double highest_mm = Double.NEGATIVE_INFINITY;
    private double lookedAt_s = Double.NEGATIVE_INFINITY;
    private Person.Question question = Person.Question.SWEEPING;

    TouchCapture(BookFile book, Plan plan, Station station, String link, List<Companion> companions)
            throws IOException {
        this.plan = plan;
        this.station = station;
        // Not as the link says: it does not know the unit before its first reading.
        this.unit = plan.indicator().resolution().unit();
        this.resolution_mm = plan.indicator().resolution().mm();
        this.reader = new SweepReader(new SweepSettings(
                station.offset().pressing(),
                resolution_mm,
                plan.machine().jogStep().mm(),
                unit,
                station.planned().contour()));
        this.readBefore_s = book.book().lastKept_s(link);
        this.record = new AttemptRecord(book, station, link, unit, resolution_mm, companions);
    }

    /** What the book is told of it. */
    AttemptRecord record() {
        return record;
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

    /** Whether no reading has come yet. */
    boolean isEmpty() {
        return now().phase() == SweepNow.Phase.NO_READING;
    }

    void receive(Reading reading) throws IOException {
        if (readBefore_s.isPresent()) {
            beganInRest = reading.time_s() - readBefore_s.getAsDouble() < HARDLY_MOVED_S;
            readBefore_s = OptionalDouble.empty();
        }
        last_s = reading.time_s();
        lowest_mm = Math.min(lowest_mm, reading.reading_mm());
        highest_mm = Math.max(highest_mm, reading.reading_mm());
        reader.add(reading.time_s(), reading.reading_mm());
        findings = Optional.empty();
        record.receive(reading);
    }

    /** Nothing more will come. */
    void end() {
        ended = true;
    }

    SweepNow now() {
        return reader.now();
    }

    /** Whether another click would take the last reading further from zero, as far as its display tells. */
    boolean isWithinHalfAClickOfZero() {
        double off_mm = Math.abs(now().reading_mm()) - resolution_mm;
        return off_mm <= plan.machine().jogStep().mm() / 2;
    }

    /** What all readings so far say; looked for once, however often it is asked for before the next reading. */
    SweepFindings findings() {
        if (findings.isEmpty()) {
            findings = Optional.of(reader.findings());
        }
        return findings.get();
    }

    OptionalDouble positionOnCrest_mm() {
        return noted_mm(Moment.ON_CREST);
    }

    OptionalDouble travel_mm() {
        return noted_mm(Moment.ON_TRAVEL);
    }

    private OptionalDouble noted_mm(Moment moment) {
        return noted.stream()
                .filter(one -> one.moment() == moment)
                .mapToDouble(Noted::position_mm)
                .findFirst();
    }

    /** What the person is to type now, if anything. */
    Person.Question question() {
        Person.Question next = questionOfMeasuredAxis();
        return next == Person.Question.POSITION_AT_THE_END && wantsTravel() ? Person.Question.POSITION_ON_TRAVEL : next;
    }

    /** Which position a number is that the person types at that question. */
    Moment moment(Person.Question asked) {
        if (asked == Person.Question.POSITION_ON_CREST) {
            return Moment.ON_CREST;
        }
        return wantsTravel() ? Moment.ON_TRAVEL : Moment.AT_THE_END;
    }

    private boolean wantsTravel() {
        return station.offset().method().travelAxis().isPresent() && travel_mm().isEmpty();
    }

    private Person.Question questionOfMeasuredAxis() {
        if (ended) {
            return lacksPositionOnCrest() && !crestIsNotNoted
                    ? Person.Question.POSITION_ON_CREST
                    : Person.Question.POSITION_AT_THE_END;
        }
        if (now().phase() != SweepNow.Phase.STABLE) {
            lacking = Optional.empty();
            lookAgain();
        } else if (last_s - lookedAt_s >= LOOK_AGAIN_S) {
            lookedAt_s = last_s;
            question = question(findings());
        }
        return question;
    }

    /** Whether the touch is done by the readings up to now, not only by those up to the last look. */
    boolean isStillDone() {
        lookedAt_s = Double.NEGATIVE_INFINITY;
        return question() == Person.Question.POSITION_AT_THE_END;
    }

    /** Why nothing can be typed although the needle stands, as far as it was looked at; empty where it need not stand. */
    Optional<String> lacking() {
        return lacking;
    }

    /** The whole trace is looked at, for what the live view says of passes and clicks is rough. */
    private Person.Question question(SweepFindings findings) {
        lacking = Summary.uselessBecause(this, findings);
        if (station.offset().habit() == Habit.HOLD_STILL) {
            boolean stands = findings.stableZero().isFound()
                    && (!beganInRest || hasMovedBy_mm(plan.machine().jogStep().mm() / 2));
            return stands ? Person.Question.POSITION_AT_THE_END : Person.Question.SWEEPING;
        }
        boolean swept = findings.highSpot().isFound();
        // A pause on the flank does not end a touch.
        if (swept && !findings.crestMiss().isFound()) {
            return Person.Question.SWEEPING;
        }
        if (lacking.isPresent()) {
            return Person.Question.SWEEPING;
        }
        Optional<StableZero> zero = findings.stableZero().asOptional().filter(this::isThisRest);
        if (zero.isEmpty() || !hasMovedBy_mm(plan.machine().jogStep().mm())) {
            return Person.Question.SWEEPING;
        }
        int clicks = findings.clicks().count();
        boolean complete = station.offset().habit() != Habit.JOG_TO_ZERO || isNearZero(zero.get(), clicks);
        if (swept && lacksPositionOnCrest() && !crestIsNotNoted && (clicks == 0 || complete)) {
            return Person.Question.POSITION_ON_CREST;
        }
        return complete ? Person.Question.POSITION_AT_THE_END : Person.Question.SWEEPING;
    }

    /** A touch ends with the rest that goes on, not with one before it. */
    private boolean isThisRest(StableZero zero) {
        return zero.to_s() >= last_s - LOOK_AGAIN_S / 2;
    }

    /** The attempt may begin while the feature of the touch before still stands on the contact. */
    private boolean hasMovedBy_mm(double least_mm) {
        return highest_mm - lowest_mm > least_mm;
    }

    /** Whether the plan asks for the position on the crest beside that after the jog, and it has not been typed. */
    boolean lacksPositionOnCrest() {
        boolean isAsked = station.offset().positions() == Positions.ON_CREST_AND_AT_THE_END
                && station.offset().habit() == Habit.JOG_TO_ZERO
                && station.planned().feature() instanceof Feature.Round;
        return isAsked && positionOnCrest_mm().isEmpty();
    }

    /** Within half a jog step no click brings it nearer; a jog that stuck and slipped ends when the hands stay off. */
    private boolean isNearZero(StableZero zero, int clicks) {
        double step_mm = plan.machine().jogStep().mm();
        double off_mm = Math.abs(zero.level().value()) - resolution_mm;
        boolean handsOff = clicks > 0 && zero.to_s() - zero.from_s() >= HANDS_OFF_S;
        return off_mm <= step_mm / 2 || handsOff && off_mm <= step_mm;
    }

    /** A position that was asked for before the one at the end, and is taken. */
    void note(Moment moment, String text, double position_mm) {
        noted.push(new Noted(moment, text, position_mm));
        if (moment == Moment.ON_CREST) {
            lookAgain();
        }
    }

    /** Takes back what was noted last, and gives it; it is asked for again. */
    Optional<Noted> takeBack() throws IOException {
        Optional<Noted> last = Optional.ofNullable(noted.poll());
        if (last.isPresent()) {
            record.typed(last.get().moment(), last.get().text(), Fate.WITHDRAWN, "undone, the person said");
            lookAgain();
        }
        return last;
    }

    /** The person did not note the position on the crest: it is not asked for again. */
    void crestNotNoted() {
        crestIsNotNoted = true;
        lookAgain();
    }

    /** What was asked for is there: what comes next is seen at the next look, which does not wait. */
    private void lookAgain() {
        question = Person.Question.SWEEPING;
        lookedAt_s = Double.NEGATIVE_INFINITY;
    }
}
