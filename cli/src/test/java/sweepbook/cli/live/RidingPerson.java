package sweepbook.cli.live;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/** Brings the contact from stop to stop, types what the machine shows there, and leaves after the last. */
final class RidingPerson implements Person {
    /** What the indicator reads there, and what the machine shows. */
    record Stop(double reading_mm, String travel, String position) {}

    private final StandingSource source;
    private final Deque<Stop> stops;
    private Stop here;

    RidingPerson(StandingSource source, List<Stop> stops) {
        this.source = source;
        this.stops = new ArrayDeque<>(stops);
    }

    @Override
    public Optional<String> typed(Question question) {
        return switch (question) {
            case READY -> {
                if (stops.isEmpty()) {
                    yield Optional.of("quit");
                }
                here = stops.remove();
                source.standAt(here.reading_mm());
                yield Optional.of("");
            }
            case SWEEPING -> Optional.empty();
            case POSITION_ON_CREST -> throw new AssertionError("a flat feature has no crest");
            case POSITION_ON_TRAVEL -> Optional.of(here.travel());
            case POSITION_AT_THE_END -> Optional.of(here.position());
        };
    }

    @Override
    public void tell(String line) {}

    @Override
    public void show(LiveView view) {}

    @Override
    public void objection(String why) {
        throw new AssertionError(why);
    }

    @Override
    public void close() {}
}
