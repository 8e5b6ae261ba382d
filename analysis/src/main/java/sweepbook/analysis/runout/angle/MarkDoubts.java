package sweepbook.analysis.runout.angle;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;

/** Where the times between marks are so unlike those beside them that one may be missing, told twice or told late. */
public final class MarkDoubts {
    /** Against those beside it an interval with a missed mark is hardly ever shorter. */
    private static final double TOO_LONG = 1.25;

    /** No hand is so uneven from one interval to the next two: such a doubt stands unless the readings are sure. */
    private static final double STRANGE = 1.6;

    private static final double SURE_ODDS = 12;
    private static final double FAIR_ODDS = 2;

    /** An interval without a mark that was counted twice is hardly ever shorter. */
    private static final double TOO_SHORT = 0.6;

    /** A mark out of its place makes one interval so much longer than the other. */
    private static final double UNLIKE = 1.15;

    /** So many of the strangest of each kind are worth a doubt. */
    private static final int MOST_DOUBTS = 3;
    /** Of long intervals more, for many turns by hand have some that are longer than the one with a missed mark. */
    private static final int MOST_LONG = 12;
    /** Fewer marks do not tell which of them is out of place. */
    private static final int LEAST_MARKS = 3;
    /** No hand that keeps turning slows down so much against the marks beside it: it stopped. */
    private static final double STOPPED = 2.5;

    private final TurnMarks marks;

    public MarkDoubts(TurnMarks marks) {
        this.marks = marks;
    }

    /**
     * What may be wrong with the marks, and the marks as they would be without the fault.
     *
     * @param odds log odds by which the readings must speak against it
     */
    public record Doubt(String reason, TurnMarks instead, double odds) {}

    /** A time between marks in which a hand cannot have kept turning, whatever the readings say. */
    public Optional<String> stop(double to_s) {
        for (int m = 0; m < marks.count(); m++) {
            double until_s = m + 1 < marks.count() ? marks.time_s()[m + 1] : to_s;
            double took_s = until_s - marks.time_s()[m];
            if (took_s > STOPPED * neighbourInterval_s(m)) {
                return Optional.of("after the mark at " + seconds(m)
                        + String.format(Locale.ROOT, " %.1f", took_s / neighbourInterval_s(m))
                        + " times the usual time went by without another: the turning stopped or went back, or marks"
                        + " were missed; turn again without a stop");
            }
        }
        return Optional.empty();
    }

    /** Intervals that a mark seems to be missing from, or that one told twice seems to end; the worst of each kind first. */
    public List<Doubt> spacing() {
        List<Doubt> doubts = new ArrayList<>();
        Comparator<Integer> byLength = Comparator.comparing(this::length);
        for (int m : first(marks.count() - 1, byLength.reversed(), MOST_LONG)) {
            if (length(m) > TOO_LONG) {
                doubts.add(missedAfter(m));
            }
        }
        for (int m : first(marks.count() - 1, byLength, MOST_DOUBTS)) {
            if (marks.count() > 2 && length(m) < TOO_SHORT) {
                doubts.add(toldTwice(m));
            }
        }
        return doubts;
    }

    /**
     * Marks that divide their two intervals most unevenly, as if told early or late. Their odds are even ones: how seldom
     * that happens is left to the caller.
     */
    public List<Doubt> outOfPlace() {
        int judged = marks.count() < LEAST_MARKS ? 0 : marks.count();
        return first(judged, Comparator.comparing(this::unlike).reversed(), MOST_DOUBTS).stream()
                .filter(m -> unlike(m) > UNLIKE)
                .map(m -> new Doubt(
                        "the mark at " + seconds(m) + " was told early or late, or the turning stopped or went back"
                                + " there: the readings fit better without it; turn again",
                        marks.without(m, 0),
                        straySeen()))
                .toList();
    }

    private Doubt missedAfter(int m) {
        return new Doubt(
                "between the marks at " + seconds(m) + " and " + seconds(m + 1)
                        + String.format(Locale.ROOT, " %.1f times", length(m))
                        + " the time of the marks beside them went by: a mark was missed,"
                        + " or the turning stopped or went back; turn again without a stop",
                marks.later(m, (int) Math.max(1, Math.rint(length(m)) - 1)),
                length(m) > STRANGE ? SURE_ODDS : FAIR_ODDS);
    }

    private Doubt toldTwice(int m) {
        return new Doubt(
                "the marks at " + seconds(m) + " and " + seconds(m + 1)
                        + " are much closer together than those beside them: one was counted twice, or the"
                        + " turning went back; turn again",
                marks.without(m < marks.count() - 2 ? m + 1 : m, -1),
                SURE_ODDS + straySeen());
    }

    /**
     * A mark that is left out need not be where it was told; that it stands there all the same is as likely as anywhere
     * between the marks beside it. In log odds, as against a normal distribution without its 1 / sqrt(2 pi).
     */
    private double straySeen() {
        return -Math.log(2 * marks.step_rad() / Math.sqrt(2 * Math.PI));
    }

    private List<Integer> first(int of, Comparator<Integer> order, int most) {
        return IntStream.range(0, of).boxed().sorted(order).limit(most).toList();
    }

    private String seconds(int m) {
        return TurnMarks.seconds(marks.time_s()[m]);
    }

    private double interval_s(int m) {
        return marks.time_s()[m + 1] - marks.time_s()[m];
    }

    /** Of an interval against those beside it. */
    private double length(int m) {
        return interval_s(m) / neighbourInterval_s(m);
    }

    /** By how much the intervals before and after a mark differ; of a mark at an end, its interval from the next. */
    private double unlike(int m) {
        int before = Math.max(0, Math.min(m - 1, marks.count() - 3));
        double ratio = interval_s(before) / interval_s(before + 1);
        return Math.max(ratio, 1 / ratio);
    }

    /** Median of up to four intervals about this one; NaN, which never compares, where there is none. */
    private double neighbourInterval_s(int m) {
        double[] near = IntStream.of(m - 2, m - 1, m + 1, m + 2)
                .filter(k -> k >= 0 && k + 1 < marks.count())
                .mapToDouble(this::interval_s)
                .sorted()
                .toArray();
        int n = near.length;
        if (n == 0) {
            return Double.NaN;
        }
        return n % 2 == 1 ? near[n / 2] : (near[n / 2 - 1] + near[n / 2]) / 2;
    }
}
