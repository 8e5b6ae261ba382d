package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.IndicatorStatus;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.Attempt.Outcome;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.live.MeasureJob.Ending;
import sweepbook.cli.plan.Plans;

@Timeout(60)
class MeasureJobTest {
    private static final BookEvent.Resumed GOING_ON = new BookEvent.Resumed("test", "none", "Jan Torv", "31 degrees C");

    private static final String FIRST = "touch swivel-axis-to-spindle 0";
    private static final String SECOND = "touch swivel-axis-to-spindle 1";

    @TempDir
    Path folder;

    private final VirtualSource source = new VirtualSource(11);
    private ScriptedPerson person;
    private Path file;

    @BeforeEach
    void nameTheBook() {
        file = folder.resolve("job.book");
    }

    @Test
    void everyReadingOfATouchIsInTheBook() throws Exception {
        measure(FIRST, "crest", "end");
        Attempt attempt = book().attempts().get(0);
        assertTrue(attempt.isKept());
        List<Reading> recorded = new ArrayList<>();
        for (int i = 0; i < attempt.trace().size(); i++) {
            recorded.add(attempt.trace().reading(i));
        }
        assertEquals(source.given().subList(0, recorded.size()), recorded);
        assertTrue(recorded.size() > 300, "a whole touch, not " + recorded.size() + " readings");
    }

    /** What the trade does, in its order (steps 2 and 3 of the job): sweep, stop on the high spot, jog in, note the position. */
    @Test
    void eachStepIsSaidInLargeLettersWhenItIsDue() throws Exception {
        measure(FIRST, "crest", "end", "quit");
        List<String> left =
                new ArrayList<>(List.of("SWEEP", "SWEEP 1", "SWEEP 2", "HOLD", "TYPE X", "JOG X", "TYPE X"));
        for (String cue : person.cues()) {
            if (!left.isEmpty() && left.get(0).equals(cue)) {
                left.remove(0);
            }
        }
        assertEquals(List.of(), left, "not said in this order: " + person.cues());
    }

    @Test
    void aLostLinkIsSaidInLargeLetters() throws Exception {
        source.happens(new Event.LinkLost(0.1, "unplugged"));
        measure(FIRST, "crest", "end");
        assertTrue(person.cues().contains("NO LINK"), person.cues() + "");
    }

    @Test
    void redoSetsTheAttemptAsideAndItsReadingsStay() throws Exception {
        measure(FIRST, "during redo", FIRST, "crest", "end");
        List<Attempt> attempts = book().attempts();
        assertEquals("made again, the person said", setAside(attempts.get(0)));
        assertTrue(attempts.get(0).trace().size() > 0);
        assertTrue(attempts.get(1).isKept());
        assertEquals(0, attempts.get(1).touch());
    }

    @Test
    void undoMakesTheLastKeptTouchAgain() throws Exception {
        measure(FIRST, "crest", "end", "undo", FIRST, "crest", "end", SECOND, "crest", "end");
        List<Attempt> attempts = book().attempts();
        assertEquals(List.of(0, 0, 1), attempts.stream().map(Attempt::touch).toList());
        assertEquals("undone, the person said", setAside(attempts.get(0)));
        assertTrue(attempts.get(1).isKept() && attempts.get(2).isKept());
    }

    @Test
    void undoWithNothingKeptIsSaidAndHarmless() throws Exception {
        measure("undo", FIRST, "crest", "end");
        assertEquals(List.of("nothing has been kept or skipped yet that could be undone"), person.objections());
        assertTrue(book().attempts().get(0).isKept());
    }

    @Test
    void undoWithNothingKeptLeavesTheAttemptAlone() throws Exception {
        measure(FIRST, "undo", "crest", "end");
        assertEquals(List.of("nothing has been kept or skipped yet that could be undone"), person.objections());
        assertEquals(1, book().attempts().size());
        assertTrue(book().attempts().get(0).isKept());
    }

    @Test
    void undoAfterTheCrestTakesBackWhatWasTypedThereAndNothingElse() throws Exception {
        measure(FIRST, "crest+50", "end", "undo", "crest", "end");
        assertEquals(List.of(Fate.TAKEN, Fate.DOUBTED, Fate.WITHDRAWN, Fate.TAKEN, Fate.TAKEN), fates());
        assertEquals(1, book().attempts().size());
        assertTrue(book().attempts().get(0).isKept());
    }

    @Test
    void aPositionTakenBackDoesNotCountWhenNoneIsTypedInItsPlace() throws Exception {
        measure(FIRST, "crest", "undo", "", "end!");
        assertEquals(Optional.empty(), book().attempts().get(0).position(Moment.ON_CREST));
        assertTrue(book().attempts().get(0).isKept());
    }

    @Test
    void aSkippedTouchIsLeftOutAndSaid() throws Exception {
        measure("skip", SECOND, "crest", "end");
        assertEquals(
                List.of(0), book().skipped().stream().map(Book.Station::touch).toList());
        assertEquals(1, book().attempts().get(0).touch());
    }

    @Test
    void quittingLeavesTheRestForLater() throws Exception {
        assertEquals(Ending.LEFT, measure(FIRST, "crest", "end", "quit"));
        assertEquals(1, book().next().orElseThrow().touch());
        try (BookFile again = BookFile.resume(file, Clock.system(), GOING_ON)) {
            person = new ScriptedPerson(source, SECOND, "crest", "end");
            new MeasureJob(again, source, person).run();
        }
        assertEquals(
                List.of(1, 2), book().attempts().stream().map(Attempt::number).toList());
        assertTrue(book().attempts().stream().allMatch(Attempt::isKept));
    }

    @Test
    void quittingInMidSweepKeepsWhatWasRead() throws Exception {
        assertEquals(Ending.LEFT, measure(FIRST, "during quit"));
        assertEquals("the person left", setAside(book().attempts().get(0)));
        assertTrue(book().attempts().get(0).trace().size() > 0);
    }

    @Test
    void aMistypedDigitIsFoundByTheClicks() throws Exception {
        measure(FIRST, "crest", "end+0.1", "end");
        assertEquals(1, person.objections().size());
        assertTrue(
                person.objections().get(0).startsWith("the trace shows "),
                person.objections().get(0));
        assertEquals(List.of(Fate.TAKEN, Fate.DOUBTED, Fate.TAKEN), fates());
    }

    @Test
    void thePersonCanInsistAndItIsRecorded() throws Exception {
        measure(FIRST, "crest", "end+0.1", "end+0.1!");
        assertEquals(List.of(Fate.TAKEN, Fate.DOUBTED, Fate.INSISTED), fates());
        assertTrue(book().attempts().get(0).isKept());
        String against = book().attempts()
                .get(0)
                .taken(Moment.AT_THE_END)
                .orElseThrow()
                .typed()
                .why();
        assertTrue(against.startsWith("the trace shows "), against);
    }

    @Test
    void anOffsetFarFromTheTableIsDoubted() throws Exception {
        measure(
                "skip",
                "skip",
                "touch swivel-axis-to-spindle-y 0",
                "crest",
                "end",
                "touch swivel-axis-to-spindle-y 1",
                "crest+50",
                "end+50",
                "end+50!");
        assertEquals(1, person.objections().size());
        assertTrue(
                person.objections().get(0).startsWith("the entry 'swivel to spindle Y' would go from -0.350 to "),
                person.objections().get(0));
    }

    @Test
    void undoTakesASkipBackToo() throws Exception {
        measure(FIRST, "crest", "end", "skip", "undo", SECOND, "crest", "end");
        assertTrue(book().skipped().isEmpty());
        assertEquals(
                List.of(true, true),
                book().attempts().stream().map(Attempt::isKept).toList());
    }

    @Test
    void whatWasSkippedIsTakenUpByTheNextSitting() throws Exception {
        assertEquals(Ending.SOME_LEFT_OUT, measure("skip", "skip", "skip", "skip", "skip", "skip", "skip", "skip"));
        assertTrue(book().next().isEmpty());
        try (BookFile again = BookFile.resume(file, Clock.system(), GOING_ON)) {
            person = new ScriptedPerson(source, FIRST, "crest", "end");
            assertEquals(Ending.LEFT, new MeasureJob(again, source, person).run());
        }
        assertTrue(book().attempts().get(0).isKept());
        assertEquals(1, book().next().orElseThrow().touch());
        assertEquals(GOING_ON, book().sittings().get(0).resumed());
    }

    @Test
    void aPositionOnTheCrestThatWasNotNotedHasToBeInsistedOn() throws Exception {
        measure(FIRST, "", "end", "end!");
        assertEquals(1, person.objections().size());
        assertTrue(person.objections().get(0).startsWith("no position on the crest was typed"));
        assertEquals(List.of(Fate.DOUBTED, Fate.INSISTED), fates());
    }

    @Test
    void aPositionTypedInMidSweepIsTooEarlyAndTheTouchGoesOn() throws Exception {
        measure(FIRST, "now 1210.338", "crest", "end");
        assertTrue(person.objections().get(0).startsWith("it is too early for a position: "));
        assertTrue(book().attempts().get(0).isKept());
        assertEquals(List.of(Fate.REFUSED, Fate.TAKEN, Fate.TAKEN), fates());
    }

    @Test
    void aPositionBeforeTheTouchIsToldToWait() throws Exception {
        measure("1210.338", FIRST, "crest", "end");
        assertEquals(
                List.of("nothing is measured yet; press Enter first, when everything is clear and in place"),
                person.objections());
    }

    @Test
    void whatIsNoReadingGoesOnRecordBesideTheReadings() throws Exception {
        source.happens(new Event.StatusShown(0, IndicatorStatus.OVER_RANGE, "------"));
        try (BookFile book = begin("joinery-head")) {
            person = new ScriptedPerson(source, "", "during quit");
            new MeasureJob(book, source, person).run();
        }
        assertEquals(
                "the indicator shows over-range ('------')",
                book().attempts().get(0).incidents().get(0).what());
    }

    /** While the link is away nobody knows where the needle stands: a position then would be paired with an old reading. */
    @Test
    void aPositionWhileTheLinkIsAwayIsNotTaken() throws Exception {
        try (BookFile book = begin("joinery-head")) {
            person = new ScriptedPerson(source, "", "now 1210.338", "during quit");
            source.happens(new Event.LinkLost(1, "unplugged"));
            source.happens(new Event.ReadingTaken(new Reading(0, 0.1)));
            assertEquals(Ending.LEFT, new MeasureJob(book, source, person).run());
        }
        assertEquals(
                List.of("link lost, so nobody knows where the needle stands now; wait for readings"),
                person.objections());
        assertTrue(
                person.told().contains("  ! link lost, trying to open it again; what was captured is safe: unplugged"));
        assertEquals(List.of(Fate.REFUSED), fates());
    }

    /** Law: an event of the link in the middle of a touch takes nothing of the touch away. */
    @Test
    void aLinkThatCameBackLeavesTheTouchWhole() throws Exception {
        source.happens(new Event.Silence(0.2, 5));
        source.happens(new Event.LinkLost(0.1, "unplugged"));
        source.happens(new Event.LinkBack(0.3, 2.5, "virtual:"));
        measure(FIRST, "crest", "end");
        assertTrue(book().attempts().get(0).isKept());
        assertEquals(List.of(), person.objections());
    }

    @Test
    void readingsThatEndBeforeTheTouchAreNoTouch() throws Exception {
        try (BookFile book = begin("joinery-head")) {
            person = new ScriptedPerson(source, "");
            source.happens(Event.EndOfInput.END_OF_INPUT);
            source.happens(new Event.ReadingTaken(new Reading(0, 0.1)));
            source.happens(new Event.ReadingTaken(new Reading(0, 0.1)));
            MeasureJob job = new MeasureJob(book, source, person);
            assertThrows(NotDeterminedException.class, job::run);
        }
        assertInstanceOf(Outcome.SetAside.class, book().attempts().get(0).outcome());
    }

    /** A link knows the unit only after its first reading; the first trace is in the indicator's unit all the same. */
    @Test
    void theFirstTraceIsInTheUnitOfThePlansIndicator() throws Exception {
        person = new ScriptedPerson(source, FIRST, "during quit");
        try (BookFile book = begin("joinery-head-inch")) {
            new MeasureJob(book, source, person).run();
        }
        assertEquals(LengthUnit.IN, book().attempts().get(0).trace().unit());
        String doubt = "the indicator sends steps of 0.001 mm, but the plan says that it shows 0.00005 in: set the"
                + " indicator, or correct the plan's resolution, before you measure";
        assertEquals(
                1,
                person.told().stream()
                        .filter(line -> line.equals("  ! " + doubt))
                        .count(),
                person.told() + "");
        assertEquals(doubt, book().attempts().get(0).incidents().get(0).what());
    }

    /** Law: what the second indicator sends stands beside the touch under its name, and changes nothing of the touch. */
    @Test
    void aSecondIndicatorIsRecordedBesideUnderItsName() throws Exception {
        VirtualSource other = new VirtualSource(12);
        other.happens(new Event.StatusShown(0, IndicatorStatus.LOW_BATTERY, "LOW"));
        person = new ScriptedPerson(source, FIRST, "crest", "end", "quit");
        try (BookFile book = begin("joinery-head")) {
            new MeasureJob(book, source, person, List.of(new Companion("tail end", other))).run();
        }
        Attempt attempt = book().attempts().get(0);
        assertTrue(attempt.isKept());
        Attempt.Beside beside = attempt.beside().get(0);
        assertEquals("tail end", beside.indicator());
        assertTrue(beside.trace().size() > 0);
        List<Reading> recorded = new ArrayList<>();
        for (int i = 0; i < beside.trace().size(); i++) {
            recorded.add(beside.trace().reading(i));
        }
        int from = other.given().indexOf(recorded.get(0));
        assertEquals(other.given().subList(from, from + recorded.size()), recorded);
        assertEquals(source.given().size(), attempt.trace().size() + readingsAfter(attempt));
    }

    /** What the first source gave after the touch was kept. */
    private int readingsAfter(Attempt attempt) {
        double last_s = attempt.trace().time_s(attempt.trace().size() - 1);
        return (int) source.given().stream().filter(r -> r.time_s() > last_s).count();
    }

    private Ending measure(String... script) throws Exception {
        person = new ScriptedPerson(source, script);
        try (BookFile book = begin("joinery-head")) {
            return new MeasureJob(book, source, person).run();
        }
    }

    private BookFile begin(String plan) throws IOException {
        return BookFile.begin(
                file, Clock.system(), new BookEvent.Begun("test", Plans.text(plan), "none", "Ada Brenn", ""));
    }

    private Book book() throws IOException {
        return BookFile.read(file);
    }

    private List<Fate> fates() throws IOException {
        return book().attempts().get(0).typed().stream()
                .map(at -> at.typed().fate())
                .toList();
    }

    private static String setAside(Attempt attempt) {
        return assertInstanceOf(Outcome.SetAside.class, attempt.outcome()).why();
    }
}
