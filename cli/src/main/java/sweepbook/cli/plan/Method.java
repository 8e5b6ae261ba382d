package sweepbook.cli.plan;

import java.util.List;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.PlannedOffset.PlannedTouch;

/** How touches become an offset: all that differs from one way to the next is here. */
public sealed interface Method permits DifferenceMethod, ReversalMethod, BracketMethod {
    /** As it is written in plans. */
    String word();

    /** For the record. */
    String inWords();

    /** How many touches it takes; an {@link IllegalArgumentException} says why it cannot use the planned ones. */
    void check(List<PlannedTouch> touches);

    /**
     * The measurement that the touches are.
     *
     * @param touches all of them, in the order of the plan
     * @throws IllegalArgumentException if they do not belong together, with what to do
     */
    Measurement of(List<Touch> touches);

    /** Mistakes that it has no means to show, each with what would show it. */
    List<String> unnoticed();
}
