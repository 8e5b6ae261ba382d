package sweepbook.cli.book;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset;

/**
 * Everything that a book says, folded from its events.
 *
 * @param begun its first event
 * @param attempts every try at every touch, the rejected ones too, in the order in which they were begun
 * @param skipped touches left out on purpose and not made since, as {@code offset/touch}
 */
public record Book(BookEvent.Begun begun, Plan plan, List<Attempt> attempts, List<String> skipped) {
    public Book {
        attempts = List.copyOf(attempts);
        skipped = List.copyOf(skipped);
    }

    /** A touch of the plan. */
    public record Station(PlannedOffset offset, int touch) {
        String key() {
            return offset.name() + "/" + touch;
        }

        public PlannedOffset.PlannedTouch planned() {
            return offset.touches().get(touch);
        }
    }

    /** All touches of the plan, in its order. */
    public static List<Station> stations(Plan plan) {
        List<Station> stations = new ArrayList<>();
        for (PlannedOffset offset : plan.offsets()) {
            for (int touch = 0; touch < offset.touches().size(); touch++) {
                stations.add(new Station(offset, touch));
            }
        }
        return stations;
    }

    /** The attempt that counts for the touch: the last one kept. */
    public Optional<Attempt> kept(Station station) {
        return attempts.stream()
                .filter(a -> a.isKept() && a.offset().equals(station.offset().name()) && a.touch() == station.touch())
                .reduce((earlier, later) -> later);
    }

    /** The first touch that is neither made nor skipped. */
    public Optional<Station> next() {
        return stations(plan).stream()
                .filter(station -> kept(station).isEmpty() && !skipped.contains(station.key()))
                .findFirst();
    }

    /** Folds events in the order in which they were written. */
    static final class Folding {
        private BookEvent.Begun begun;
        private Plan plan;
        private final Map<Integer, AttemptFolding> attempts = new LinkedHashMap<>();
        private final List<String> skipped = new ArrayList<>();

        /** The plan is read once, when the book is begun. */
        void begin(BookEvent.Begun event, Plan itsPlan) {
            begun = event;
            plan = itsPlan;
        }

        void add(BookEvent event, double wall_s) {
            if (event instanceof BookEvent.AttemptBegun attempt) {
                attempts.put(attempt.attempt(), new AttemptFolding(attempt, wall_s));
                skipped.remove(attempt.offset() + "/" + attempt.touch());
            } else if (event instanceof BookEvent.Received received) {
                attempt(received.attempt()).add(received.readings());
            } else if (event instanceof BookEvent.Beside beside) {
                attempt(beside.attempt()).add(beside);
            } else if (event instanceof BookEvent.Incident incident) {
                attempt(incident.attempt()).add(incident);
            } else if (event instanceof BookEvent.Typed typed) {
                attempt(typed.attempt()).add(typed, wall_s);
            } else if (event instanceof BookEvent.Kept kept) {
                attempt(kept.attempt()).outcome(new Attempt.Outcome.Kept());
            } else if (event instanceof BookEvent.SetAside setAside) {
                attempt(setAside.attempt()).outcome(new Attempt.Outcome.SetAside(setAside.why()));
            } else if (event instanceof BookEvent.Skipped skip) {
                skipped.add(skip.offset() + "/" + skip.touch());
            }
        }

        private AttemptFolding attempt(int number) {
            AttemptFolding attempt = attempts.get(number);
            if (attempt == null) {
                throw new IllegalArgumentException("attempt " + number + " was never begun");
            }
            return attempt;
        }

        /** Whether the plan has been met; nothing else may come before it. */
        boolean isBegun() {
            return begun != null;
        }

        int attempts() {
            return attempts.size();
        }

        Book book() {
            return new Book(
                    begun,
                    plan,
                    attempts.values().stream().map(AttemptFolding::attempt).toList(),
                    skipped);
        }
    }
}
