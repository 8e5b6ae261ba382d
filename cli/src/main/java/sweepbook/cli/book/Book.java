package sweepbook.cli.book;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.TouchSeries;

/**
 * Everything that a book says, folded from its events.
 *
 * @param begun its first event
 * @param attempts every try at every touch, the rejected ones too, in the order in which they were begun
 * @param sittings who went on with it, after the first
 * @param deeds what stands of keeping and skipping, in the order in which it was done
 */
public record Book(BookEvent.Begun begun, Plan plan, List<Sitting> sittings, List<Attempt> attempts, List<Deed> deeds) {
    public Book {
        sittings = List.copyOf(sittings);
        attempts = List.copyOf(attempts);
        deeds = List.copyOf(deeds);
    }

    /** Work that went on, in seconds since 1970-01-01T00:00Z. */
    public record Sitting(double wall_s, BookEvent.Resumed resumed) {}

    /**
     * A touch that was kept or skipped, and not undone since.
     *
     * @param attempt the one that was kept; empty where the touch was skipped
     */
    public record Deed(String offset, int touch, OptionalInt attempt) {
        boolean isOf(String itsOffset, int itsTouch) {
            return offset.equals(itsOffset) && touch == itsTouch;
        }
    }

    /** A touch of the plan. */
    public record Station(PlannedOffset offset, int touch) {
        public TouchSeries.PlannedTouch planned() {
            return offset.touches().get(touch);
        }

        /** The offset under whose name the touch is made. */
        String madeFor() {
            return offset.series().madeFor();
        }
    }

    /** All touches of the plan, in its order. */
    public static List<Station> stations(Plan plan) {
        List<Station> stations = new ArrayList<>();
        for (PlannedOffset offset : plan.offsets()) {
            for (int touch = 0;
                    offset.hasOwnTouches() && touch < offset.touches().size();
                    touch++) {
                stations.add(new Station(offset, touch));
            }
        }
        return stations;
    }

    /** The attempt that counts for the touch: the last one kept. */
    public Optional<Attempt> kept(Station station) {
        return attempts.stream()
                .filter(a -> a.isKept() && a.offset().equals(station.madeFor()) && a.touch() == station.touch())
                .reduce((earlier, later) -> later);
    }

    /** The first touch that is neither made nor skipped. */
    public Optional<Station> next() {
        return stations(plan).stream()
                .filter(station -> kept(station).isEmpty() && !isSkipped(station))
                .findFirst();
    }

    /** Whether the touch was left out on purpose and not taken up since. */
    public boolean isSkipped(Station station) {
        return deeds.stream()
                .anyMatch(deed -> deed.attempt().isEmpty() && deed.isOf(station.madeFor(), station.touch()));
    }

    /** The touches that were left out on purpose, in the order of the plan. */
    public List<Station> skipped() {
        return stations(plan).stream().filter(this::isSkipped).toList();
    }

    /** How many positions were taken for the attempts that count. */
    public int positionsTaken() {
        return attempts.stream()
                .filter(Attempt::isKept)
                .mapToInt(Attempt::positionsTaken)
                .sum();
    }

    /** The time of the last reading of the last attempt over the link that counts, in seconds. */
    public OptionalDouble lastKept_s(String link) {
        return attempts.stream()
                .filter(attempt -> attempt.isKept() && attempt.link().equals(link))
                .mapToDouble(attempt -> attempt.trace().time_s(attempt.trace().size() - 1))
                .max();
    }

    /** What an undo takes back. */
    public Optional<Deed> lastDeed() {
        return deeds.isEmpty() ? Optional.empty() : Optional.of(deeds.get(deeds.size() - 1));
    }

    /** Folds events in the order in which they were written. */
    static final class Folding {
        private BookEvent.Begun begun;
        private Plan plan;
        private final Map<Integer, AttemptFolding> attempts = new LinkedHashMap<>();
        private final List<Sitting> sittings = new ArrayList<>();
        private final List<Deed> deeds = new ArrayList<>();

        /** The plan is read once, when the book is begun. */
        void begin(BookEvent.Begun event, Plan itsPlan) {
            begun = event;
            plan = itsPlan;
        }

        void add(BookEvent event, double wall_s) {
            if (event instanceof BookEvent.Resumed resumed) {
                sittings.add(new Sitting(wall_s, resumed));
            } else if (event instanceof BookEvent.AttemptBegun attempt) {
                attempts.put(attempt.attempt(), new AttemptFolding(attempt, wall_s));
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
                deeds.add(attempt(kept.attempt()).deed());
            } else if (event instanceof BookEvent.SetAside setAside) {
                attempt(setAside.attempt()).outcome(new Attempt.Outcome.SetAside(setAside.why()));
                deeds.removeIf(deed -> deed.attempt().equals(OptionalInt.of(setAside.attempt())));
            } else if (event instanceof BookEvent.Skipped skip) {
                deeds.add(new Deed(skip.offset(), skip.touch(), OptionalInt.empty()));
            } else if (event instanceof BookEvent.TakenUp up) {
                deeds.removeIf(deed -> deed.attempt().isEmpty() && deed.isOf(up.offset(), up.touch()));
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
                    sittings,
                    attempts.values().stream().map(AttemptFolding::attempt).toList(),
                    deeds);
        }
    }
}
