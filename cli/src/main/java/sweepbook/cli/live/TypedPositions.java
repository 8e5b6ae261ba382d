package sweepbook.cli.live;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.live.Person.Question;
import sweepbook.cli.plan.Axis;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.PositionCheck;
import sweepbook.cli.plan.PositionCheck.Expectation;
import sweepbook.cli.plan.PositionCheck.Verdict;
import sweepbook.cli.plan.TypedPosition;

/** Takes the positions that a person types, or says why not; each goes into the book, whatever becomes of it. */
final class TypedPositions {
    private final BookFile file;
    private final LinkWatch link;
    private final Person person;

    TypedPositions(BookFile file, LinkWatch link, Person person) {
        this.file = file;
        this.link = link;
        this.person = person;
    }

    /** Whether the touch is kept with it; one that is noted on the way, doubted or refused lets the touch go on. */
    boolean take(TouchCapture capture, Question question, String text) throws IOException {
        Moment moment = capture.moment(question);
        SweepFindings findings = capture.findings();
        Optional<String> early = tooEarly(capture, moment, findings);
        if (early.isPresent()) {
            refuse(capture, moment, text, early.get());
            return false;
        }
        List<Expectation> expected = moment == Moment.AT_THE_END
                ? Expectations.atTheEnd(capture, question, findings, file.book())
                : List.of();
        Verdict verdict = check(axis(capture, moment)).check(text, expected);
        if (verdict instanceof Verdict.Refused refused) {
            refuse(capture, moment, text, refused.why());
            return false;
        }
        if (verdict instanceof Verdict.Doubted doubted) {
            capture.record().typed(moment, text, Fate.DOUBTED, doubted.why());
            person.objection(doubted.why() + "; correct it, or " + text + "! if it is right");
            return false;
        }
        Verdict.Taken taken = (Verdict.Taken) verdict;
        capture.record()
                .typed(
                        moment,
                        text,
                        taken.against().isPresent() ? Fate.INSISTED : Fate.TAKEN,
                        taken.against().orElse(""));
        if (moment != Moment.AT_THE_END) {
            note(capture, moment, text, taken.position());
            return false;
        }
        capture.record().keep();
        Summary.of(capture, findings, taken.position()).forEach(person::tell);
        return true;
    }

    /** Where the machine stood, in words. */
    static String where(Moment moment) {
        return moment == Moment.ON_CREST ? "on the crest" : "along the travel";
    }

    private Optional<String> tooEarly(TouchCapture capture, Moment moment, SweepFindings findings) {
        if (link.isDead()) {
            return Optional.of(
                    link.trouble().orElseThrow() + ", so nobody knows where the needle stands now; wait for readings");
        }
        return moment == Moment.AT_THE_END
                ? Summary.uselessBecause(capture, findings).map(why -> "it is too early for a position: " + why)
                : Optional.empty();
    }

    private PositionCheck check(Axis axis) {
        Plan.Machine machine = file.book().plan().machine();
        return new PositionCheck(machine, machine.travel(axis).orElseThrow());
    }

    private static Axis axis(TouchCapture capture, Moment moment) {
        PlannedOffset offset = capture.station().offset();
        return moment == Moment.ON_TRAVEL ? offset.method().travelAxis().orElseThrow() : offset.axis();
    }

    private void note(TouchCapture capture, Moment moment, String text, TypedPosition position) {
        capture.note(moment, text, position.mm());
        person.tell("   noted " + where(moment) + ": " + axis(capture, moment) + " = " + position.value()
                + "; undo takes it back");
    }

    private void refuse(TouchCapture capture, Moment moment, String text, String why) throws IOException {
        capture.record().typed(moment, text, Fate.REFUSED, why);
        person.objection(why);
    }
}
