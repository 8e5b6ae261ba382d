package sweepbook.cli.live;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.Book.Station;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.live.Person.Question;
import sweepbook.cli.plan.Plan;

/**
 * Walks a person through a plan: touch after touch, each into the book before it is acknowledged. One thread asks source
 * and person in turn, so that readings are taken while the person types.
 */
public final class MeasureJob {
    /** Short enough for a live screen, long enough to leave the processor alone. */
    private static final Duration TURN = Duration.ofMillis(50);

    /** A fast source need not wait for the screen at every reading; a slow one brings fewer than this in a turn. */
    private static final int AT_ONCE = 64;

    private final BookFile file;
    private final Plan plan;
    private final ReadingSource source;
    private final Person person;
    private final LinkWatch link;
    private final EventWords words;
    private final DisplayCheck display;
    private final TypedPositions positions;
    private final List<Companion> companions;

    /** How the job ended. */
    public enum Ending {
        COMPLETE,
        /** All but what was skipped; the same command takes that up. */
        SOME_LEFT_OUT,
        /** The person left; the same command goes on from here. */
        LEFT
    }

    /** What follows an attempt. */
    private enum Step {
        ON,
        LEAVE
    }

    public MeasureJob(BookFile file, ReadingSource source, Person person) {
        this(file, source, person, List.of());
    }

    /** Other indicators are recorded beside each touch, and decide nothing. */
    public MeasureJob(BookFile file, ReadingSource source, Person person, List<Companion> companions) {
        this.companions = List.copyOf(companions);
        this.file = file;
        this.plan = file.book().plan();
        this.source = source;
        this.person = person;
        this.link = new LinkWatch();
        this.words = new EventWords(source);
        this.display = new DisplayCheck(source, plan.indicator().resolution());
        this.positions = new TypedPositions(file, link, person);
    }

    public Ending run() throws IOException, NotDeterminedException {
        Announcement.ofJob(file.book()).forEach(person::tell);
        for (Station station : file.book().skipped()) {
            file.add(new BookEvent.TakenUp(station.offset().name(), station.touch()));
        }
        for (Optional<Station> next = file.book().next();
                next.isPresent();
                next = file.book().next()) {
            Announcement.ofTouch(next.get()).forEach(person::tell);
            if (awaitReady(next.get()) == Step.LEAVE) {
                file.add(new BookEvent.Left());
                return Ending.LEFT;
            }
        }
        int leftOut = file.book().skipped().size();
        Announcement.ofEnd(leftOut).forEach(person::tell);
        return leftOut == 0 ? Ending.COMPLETE : Ending.SOME_LEFT_OUT;
    }

    private Step awaitReady(Station station) throws IOException, NotDeterminedException {
        while (true) {
            Optional<String> typed = person.typed(Question.READY);
            if (typed.isEmpty()) {
                Event event = source.next(TURN);
                if (event == Event.EndOfInput.END_OF_INPUT) {
                    throw new NotDeterminedException(
                            source.name() + ": the readings ended before all touches were made; record the rest");
                }
                link.take(event);
                if (event instanceof Event.Incident incident) {
                    tell(incident);
                }
                checkDisplay(event);
                companions.forEach(companion -> companion.passBy(person::tell));
                person.show(link.idleView(source.unit(), source.resolution_mm()));
                continue;
            }
            Answer answer = Answer.of(typed.get());
            if (answer instanceof Answer.Enter) {
                return touch(station);
            }
            if (answer instanceof Answer.Text) {
                person.objection("nothing is measured yet; press Enter first, when everything is clear and in place");
            } else if (answer == Answer.Word.HELP) {
                Announcement.help().forEach(person::tell);
            } else if (answer == Answer.Word.SKIP) {
                skip(station);
                return Step.ON;
            } else if (answer == Answer.Word.UNDO) {
                undo();
                return Step.ON;
            } else if (answer == Answer.Word.REDO) {
                person.objection("nothing is measured yet that could be made again; undo takes the touch before back");
            } else if (answer == Answer.Word.QUIT) {
                return Step.LEAVE;
            }
        }
    }

    private Step touch(Station station) throws IOException, NotDeterminedException {
        TouchCapture capture = new TouchCapture(file, plan, station, source.name(), companions);
        Optional<String> held = Optional.empty();
        for (int unseen = 0; ; unseen++) {
            Event event = source.next(TURN);
            take(capture, event);
            // Nothing is asked for while nobody knows where the needle stands.
            Question question = link.isDead() ? Question.SWEEPING : capture.question();
            boolean busy = event instanceof Event.ReadingTaken && unseen < AT_ONCE;
            if (question == Question.SWEEPING && busy) {
                continue;
            }
            unseen = 0;
            capture.record().lookBeside(person::tell);
            person.show(link.view(capture, question));
            boolean isDue = question == Question.POSITION_AT_THE_END;
            Optional<String> typed = held.isPresent() && isDue ? held : person.typed(question);
            if (typed.isEmpty()) {
                continue;
            }
            Answer answer = Answer.of(typed.get());
            if (answer instanceof Answer.Text && isDue && !capture.isStillDone()) {
                // It was asked for, and a reading that came since speaks against the rest.
                held = typed;
                continue;
            }
            held = Optional.empty();
            Optional<Step> step = answer(capture, question, answer);
            if (step.isPresent()) {
                return step.get();
            }
        }
    }

    private void checkDisplay(Event event) {
        display.take(event).ifPresent(doubt -> person.tell("  ! " + doubt));
    }

    private void take(TouchCapture capture, Event event) throws IOException, NotDeterminedException {
        link.take(event);
        if (event instanceof Event.ReadingTaken taken) {
            checkDisplay(event);
            if (capture.isEmpty() && display.doubt().isPresent()) {
                capture.record()
                        .incident(taken.reading().time_s(), display.doubt().get());
            }
            capture.receive(taken.reading());
        } else if (event == Event.EndOfInput.END_OF_INPUT) {
            capture.end();
            Optional<String> useless = Summary.uselessBecause(capture, capture.findings());
            if (useless.isPresent()) {
                capture.record().setAside(useless.get());
                throw new NotDeterminedException(source.name() + ": the readings ended before "
                        + capture.station().offset().name()
                        + ", touch " + (capture.station().touch() + 1) + " was made (" + useless.get()
                        + "); record the whole touch");
            }
        } else if (event instanceof Event.Incident incident) {
            capture.record().incident(incident.time_s(), words.of(incident));
            if (LinkWatch.isWorthTelling(incident)) {
                capture.record().flush();
            }
            tell(incident);
        }
    }

    private void tell(Event.Incident incident) {
        if (LinkWatch.isWorthTelling(incident)) {
            person.tell("  ! " + words.of(incident));
        }
    }

    private Optional<Step> answer(TouchCapture capture, Question question, Answer answer) throws IOException {
        if (answer instanceof Answer.Text text) {
            return positions.take(capture, question, text.text()) ? Optional.of(Step.ON) : Optional.empty();
        }
        if (answer instanceof Answer.Enter && question == Question.POSITION_ON_CREST) {
            capture.crestNotNoted();
            return Optional.empty();
        }
        if (answer instanceof Answer.Enter) {
            String soFar = Summary.soFar(capture);
            person.tell("   " + (soFar.isEmpty() ? "nothing found yet" : soFar) + "; type the position of "
                    + capture.station().offset().axis() + ", or go on");
            return Optional.empty();
        }
        return switch ((Answer.Word) answer) {
            case HELP -> {
                Announcement.help().forEach(person::tell);
                yield Optional.empty();
            }
            case REDO -> {
                capture.record().setAside("made again, the person said");
                yield Optional.of(Step.ON);
            }
            case UNDO -> {
                Optional<TouchCapture.Noted> noted = capture.takeBack();
                if (noted.isPresent()) {
                    person.tell("   undone: " + noted.get().text() + " "
                            + TypedPositions.where(noted.get().moment()) + "; type it again");
                    yield Optional.empty();
                }
                boolean isDeed = file.book().lastDeed().isPresent();
                if (isDeed) {
                    capture.record().setAside("the touch before is made again, the person said");
                }
                undo();
                yield isDeed ? Optional.of(Step.ON) : Optional.empty();
            }
            case SKIP -> {
                capture.record().setAside("left out, the person said");
                skip(capture.station());
                yield Optional.of(Step.ON);
            }
            case QUIT -> {
                capture.record().setAside("the person left");
                yield Optional.of(Step.LEAVE);
            }
        };
    }

    private void skip(Station station) throws IOException {
        file.add(new BookEvent.Skipped(station.offset().name(), station.touch()));
        person.tell("   left out: " + station.offset().name() + ", touch " + (station.touch() + 1));
    }

    private void undo() throws IOException {
        Optional<Book.Deed> last = file.book().lastDeed();
        if (last.isEmpty()) {
            person.objection("nothing has been kept or skipped yet that could be undone");
            return;
        }
        Book.Deed deed = last.get();
        if (deed.attempt().isPresent()) {
            file.add(new BookEvent.SetAside(deed.attempt().getAsInt(), "undone, the person said"));
        } else {
            file.add(new BookEvent.TakenUp(deed.offset(), deed.touch()));
        }
        person.tell("   undone: " + deed.offset() + ", touch " + (deed.touch() + 1));
    }
}
