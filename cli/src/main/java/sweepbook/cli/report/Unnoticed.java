package sweepbook.cli.report;

import java.util.ArrayList;
import java.util.List;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.OffsetResult.TouchResult;
import sweepbook.cli.plan.PlannedOffset;

/** Mistakes that a measurement, as it was made, has no means to show; an uncertainty does not cover them. */
final class Unnoticed {
    private Unnoticed() {}

    /** In plain words, each with what would show it. */
    static List<String> in(OffsetResult result) {
        PlannedOffset planned = result.planned();
        List<String> mistakes = new ArrayList<>(planned.method().unnoticed());
        long unproved =
                result.touches().stream().filter(touch -> !isProved(touch)).count();
        if (unproved > 0) {
            mistakes.add(
                    "A mistyped position within " + planned.plausible() + " of what the present entry lets expect, at "
                            + (unproved == result.touches().size() ? "any touch" : unproved + " of the touches")
                            + ": type the position on the crest as well, and the clicks in the trace prove both.");
        }
        mistakes.add("A wrong direction in the plan, beyond what the present entry speaks against.");
        return mistakes;
    }

    /** Two positions that nothing spoke against, with a jog between them that the trace has seen. */
    private static boolean isProved(TouchResult touch) {
        return isTaken(touch, Moment.ON_CREST)
                && isTaken(touch, Moment.AT_THE_END)
                && touch.findings().clicks().count() > 0;
    }

    private static boolean isTaken(TouchResult touch, Moment moment) {
        return touch.attempt()
                .taken(moment)
                .filter(at -> at.typed().fate() == Fate.TAKEN)
                .isPresent();
    }
}
