package sweepbook.cli.book;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Change;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.plan.Plan;

/**
 * What the books of one machine say of each offset over time.
 *
 * @param books in the order in which they were begun
 * @param series one for each offset, in the order in which they are first met
 */
public record History(Plan.Machine machine, List<Source> books, List<Series> series) {
    public History {
        books = List.copyOf(books);
        series = List.copyOf(series);
    }

    /**
     * A book by its name.
     *
     * @param lastHash hash of its last line, which stands for the whole book
     */
    public record Source(String name, Book book, String lastHash) {
        private double begun_s() {
            return book.attempts().stream()
                    .mapToDouble(Attempt::wall_s)
                    .findFirst()
                    .orElse(Double.POSITIVE_INFINITY);
        }
    }

    /**
     * An offset as one book has it.
     *
     * @param wall_s when its last touch was begun, in seconds since 1970-01-01T00:00Z
     * @param before what stood in the controller's table, in the entry's unit
     * @param entry the entry that would be right, in millimetres (angles in degrees)
     */
    public record Point(String book, double wall_s, BigDecimal before, Estimate entry) {}

    /**
     * @param points in time order
     * @param missing books that have the offset in their plan but do not determine it, with the reason
     */
    public record Series(String offset, String title, EntryUnit unit, List<Point> points, List<String> missing) {
        public Series {
            points = List.copyOf(points);
            missing = List.copyOf(missing);
        }

        /** How the point differs from the one before it. */
        public Optional<Change> step(int point) {
            return point == 0
                    ? Optional.empty()
                    : Optional.of(Change.between(
                            points.get(point - 1).entry(), points.get(point).entry()));
        }

        /**
         * The latest earlier point from which this one differs by more than chance, all earlier ones having been looked
         * at; the offset has moved since then. What is common to both books, as the indicator's own error, counts as if
         * it were not: a small move may be missed, but none is made up.
         */
        public Optional<Point> movedSince(int point) {
            for (int earlier = point - 1; earlier >= 0; earlier--) {
                Change change = Change.between(
                        points.get(earlier).entry(), points.get(point).entry());
                if (change.isSignificantAmong(point)) {
                    return Optional.of(points.get(earlier));
                }
            }
            return Optional.empty();
        }
    }

    /** Puts the books in order; all must be of one machine, and each there once. */
    public static History of(List<Source> books) {
        Plan.Machine machine = books.get(0).book().plan().machine();
        Map<String, Gathering> offsets = new LinkedHashMap<>();
        Map<Double, String> begins = new HashMap<>();
        for (Source source : books) {
            Plan.Machine other = source.book().plan().machine();
            if (!other.serial().equals(machine.serial())) {
                throw new IllegalArgumentException(source.name() + ": is of the machine " + other.serial() + ", but "
                        + books.get(0).name() + " of " + machine.serial() + "; give books of one machine");
            }
            source.book().attempts().stream().findFirst().ifPresent(first -> {
                String same = begins.putIfAbsent(first.wall_s(), source.name());
                if (same != null) {
                    throw new IllegalArgumentException(source.name() + ": is the same book as " + same
                            + ", its first touch begun at the same instant; give each book once");
                }
            });
            for (OffsetResult result : new Offsets(source.book()).all()) {
                offsets.computeIfAbsent(result.planned().name(), name -> new Gathering(result))
                        .add(source.name(), result);
            }
        }
        return new History(
                machine,
                books.stream()
                        .sorted(Comparator.comparingDouble(Source::begun_s))
                        .toList(),
                offsets.values().stream().map(Gathering::series).toList());
    }

    /** Collects the points of one offset. */
    private static final class Gathering {
        private final OffsetResult first;
        private final List<Point> points = new ArrayList<>();
        private final List<String> missing = new ArrayList<>();

        Gathering(OffsetResult first) {
            this.first = first;
        }

        void add(String book, OffsetResult result) {
            if (result.result() instanceof Finding.NotDetermined<OffsetResult.Outcome> not) {
                missing.add(book + ": " + not.reason());
                return;
            }
            double wall_s = result.touches().stream()
                    .mapToDouble(touch -> touch.attempt().wall_s())
                    .max()
                    .orElseThrow();
            result.result()
                    .map(OffsetResult.Outcome::entry)
                    .asOptional()
                    .ifPresent(entry -> points.add(new Point(
                            book, wall_s, entry.before(), entry.entry().combined())));
        }

        Series series() {
            points.sort(Comparator.comparingDouble(Point::wall_s));
            return new Series(
                    first.planned().name(),
                    first.planned().title(),
                    first.planned().entry().convention().unit(),
                    points,
                    missing);
        }
    }
}
