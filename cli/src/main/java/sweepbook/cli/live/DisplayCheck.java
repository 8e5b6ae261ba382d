package sweepbook.cli.live;

import java.util.Optional;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.cli.plan.Length;

/** Holds what the indicator sends against the display that the plan states; uncertainty is reckoned from the plan's. */
final class DisplayCheck {
    /** Steps of 0.00005 in and 0.00127 mm are the same. */
    private static final double SAME = 1e-6;

    private final ReadingSource source;
    private final Length planned;
    private boolean isKnown;
    private Optional<String> doubt = Optional.empty();

    DisplayCheck(ReadingSource source, Length planned) {
        this.source = source;
        this.planned = planned;
    }

    /** What is to be said with this event: with the first reading, before which nobody knows what is sent. */
    Optional<String> take(Event event) {
        if (isKnown || !(event instanceof Event.ReadingTaken)) {
            return Optional.empty();
        }
        isKnown = true;
        doubt = compare(source.resolution_mm());
        return doubt;
    }

    /** What speaks against every reading since; empty where nothing does. */
    Optional<String> doubt() {
        return doubt;
    }

    private Optional<String> compare(double sent_mm) {
        boolean nobodySays = !(sent_mm > 0);
        if (nobodySays || source.unit() == planned.unit() && Math.abs(sent_mm - planned.mm()) < SAME) {
            return Optional.empty();
        }
        return Optional.of("the indicator sends steps of " + Figures.step(sent_mm, source.unit())
                + ", but the plan says that it shows " + planned
                + ": set the indicator, or correct the plan's resolution, before you measure");
    }
}
