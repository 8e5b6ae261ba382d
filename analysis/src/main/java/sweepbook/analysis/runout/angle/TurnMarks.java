package sweepbook.analysis.runout.angle;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.uncertainty.Finding;

/**
 * Witness marks, equally spaced about the part, and the motion they tell: a monotone cubic through them.
 *
 * @param time_s when each passed, in the middle of what its reading allows
 * @param step_rad angle between two of them
 * @param early_s how much earlier or later than its reading a mark may have passed: half the time between readings
 */
public record TurnMarks(double[] time_s, double step_rad, double[] early_s) {
    /** Against those beside it an interval with a missed mark is hardly ever shorter. */
    private static final double TOO_LONG = 1.25;

    /** No hand is so uneven from one interval to the next two: such a doubt stands unless the readings are sure. */
    private static final double STRANGE = 1.6;

    private static final double SURE_ODDS = 12;
    private static final double FAIR_ODDS = 2;

    /** An interval without a mark that was counted twice is hardly ever shorter. */
    private static final double TOO_SHORT = 0.6;

    /** So many of the longest and of the shortest intervals are worth a doubt. */
    private static final int MOST_DOUBTS = 3;
    /** No hand that keeps turning slows down so much against the marks beside it: it stopped. */
    private static final double STOPPED = 2.5;

    /** The marks of a trace. */
    public static Finding<TurnMarks> of(Trace trace, int perTurn, MarkedReading marked) {
        int n = 0;
        int[] reading = new int[trace.size()];
        for (int i = 0; i < trace.size(); i++) {
            // A mark that is held over several readings passed at the first of them.
            if (trace.mark(i) && (i == 0 || !trace.mark(i - 1))) {
                reading[n++] = i;
            }
        }
        reading = Arrays.copyOf(reading, n);
        double[] time = new double[n];
        double[] early = new double[n];
        for (int m = 0; m < n; m++) {
            int i = reading[m];
            int before = Math.max(0, i - 1);
            int after = Math.min(trace.size() - 1, i + 1);
            early[m] = (trace.time_s(after) - trace.time_s(before)) / (after - before) / 2;
            time[m] = trace.time_s(i) - (marked == MarkedReading.NEXT ? early[m] : 0);
        }
        for (int m = 1; m < n; m++) {
            if (!(time[m] > time[m - 1])) {
                return Finding.notDetermined("two marks at the same time, " + seconds(time[m]) + "; record again");
            }
        }
        return Finding.found(new TurnMarks(time, 2 * Math.PI / perTurn, early));
    }

    private static String seconds(double time_s) {
        return String.format(Locale.ROOT, "%.2f s", time_s);
    }

    public int count() {
        return time_s.length;
    }

    /**
     * A mark that may be missing or one too many, and the marks as they would be without the fault.
     *
     * @param odds log odds by which the readings must speak against it
     */
    public record Doubt(String reason, TurnMarks instead, double odds) {}

    /** A time between marks in which a hand cannot have kept turning, whatever the readings say. */
    public Optional<String> stop(double to_s) {
        for (int m = 0; m < count(); m++) {
            double until_s = m + 1 < count() ? time_s[m + 1] : to_s;
            if (until_s - time_s[m] > STOPPED * neighbourInterval_s(m)) {
                return Optional.of("after the mark at " + seconds(time_s[m])
                        + String.format(Locale.ROOT, " %.1f", (until_s - time_s[m]) / neighbourInterval_s(m))
                        + " times the usual time went by without another: the turning stopped or went back, or marks"
                        + " were missed; turn again without a stop");
            }
        }
        return Optional.empty();
    }

    /** Where the time between two marks fits worst to those beside it. */
    public List<Doubt> doubts() {
        List<Doubt> doubts = new ArrayList<>();
        for (int m : strangest(Comparator.reverseOrder())) {
            double ratio = interval_s(m) / neighbourInterval_s(m);
            if (ratio > TOO_LONG) {
                doubts.add(new Doubt(
                        "between the marks at " + seconds(time_s[m]) + " and " + seconds(time_s[m + 1]) + " "
                                + times(ratio) + " the time of the marks beside them went by: a mark was missed,"
                                + " or the turning stopped or went back; turn again without a stop",
                        with(m, (int) Math.max(1, Math.rint(ratio) - 1)),
                        ratio > STRANGE ? SURE_ODDS : FAIR_ODDS));
            }
        }
        for (int m : strangest(Comparator.naturalOrder())) {
            if (count() > 2 && interval_s(m) < TOO_SHORT * neighbourInterval_s(m)) {
                doubts.add(new Doubt(
                        "the marks at " + seconds(time_s[m]) + " and " + seconds(time_s[m + 1])
                                + " are much closer together than those beside them: one was counted twice, or the"
                                + " turning went back; turn again",
                        without(m < count() - 2 ? m + 1 : m),
                        SURE_ODDS));
            }
        }
        return doubts;
    }

    private double interval_s(int m) {
        return time_s[m + 1] - time_s[m];
    }

    /** The intervals that are first when ordered by how long they are against those beside them. */
    private List<Integer> strangest(Comparator<Double> order) {
        return IntStream.range(0, count() - 1)
                .boxed()
                .sorted(Comparator.comparing((Integer m) -> interval_s(m) / neighbourInterval_s(m), order))
                .limit(MOST_DOUBTS)
                .toList();
    }

    private TurnMarks with(int after, int missed) {
        double[] time = new double[count() + missed];
        double[] early = new double[time.length];
        for (int m = 0; m < time.length; m++) {
            int k = m <= after ? m : Math.max(after, m - missed);
            boolean added = m > after && m <= after + missed;
            double share = added ? (double) (m - after) / (missed + 1) : 0;
            time[m] = added ? time_s[after] + share * (time_s[after + 1] - time_s[after]) : time_s[k];
            // Where in the gap it passed is not known at all; the readings say.
            early[m] = added ? (time_s[after + 1] - time_s[after]) / 4 : early_s[k];
        }
        return new TurnMarks(time, step_rad, early);
    }

    private TurnMarks without(int which) {
        double[] time = new double[count() - 1];
        double[] early = new double[time.length];
        for (int m = 0; m < time.length; m++) {
            time[m] = time_s[m < which ? m : m + 1];
            early[m] = early_s[m < which ? m : m + 1];
        }
        return new TurnMarks(time, step_rad, early);
    }

    private static String times(double ratio) {
        return String.format(Locale.ROOT, "%.1f times", ratio);
    }

    /** Median of up to four intervals about this one; NaN, which never compares, where there is none. */
    private double neighbourInterval_s(int m) {
        double[] near = new double[4];
        int n = 0;
        for (int k : new int[] {m - 2, m - 1, m + 1, m + 2}) {
            if (k >= 0 && k + 1 < count()) {
                near[n++] = time_s[k + 1] - time_s[k];
            }
        }
        if (n == 0) {
            return Double.NaN;
        }
        Arrays.sort(near, 0, n);
        return n % 2 == 1 ? near[n / 2] : (near[n / 2 - 1] + near[n / 2]) / 2;
    }

    /** Whether the marks pass at one speed, as far as the readings that carry them can tell. */
    public boolean passEvenly() {
        int n = count();
        double interval = (time_s[n - 1] - time_s[0]) / (n - 1);
        for (int m = 0; m < n; m++) {
            if (Math.abs(time_s[m] - time_s[0] - m * interval) > 3 * early_s[m]) {
                return false;
            }
        }
        return true;
    }

    /** The motion that the marks alone tell, angle zero at the first; needs two marks. */
    public Turning turning() {
        int n = count();
        double[] angle = new double[n];
        double[] speed = new double[n];
        for (int m = 0; m < n; m++) {
            angle[m] = m * step_rad;
        }
        for (int m = 0; m < n; m++) {
            if (m == 0 || m == n - 1) {
                int k = m == 0 ? 0 : n - 2;
                speed[m] = step_rad / (time_s[k + 1] - time_s[k]);
            } else {
                // The harmonic mean of the speeds before and after, weighted by time, keeps the cubic monotone
                // (Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300).
                double before = time_s[m] - time_s[m - 1];
                double after = time_s[m + 1] - time_s[m];
                double w1 = 2 * after + before;
                double w2 = after + 2 * before;
                speed[m] = (w1 + w2) / (w1 * before / step_rad + w2 * after / step_rad);
            }
        }
        return new Turning(time_s, angle, speed);
    }

    /** Standard uncertainty of the angle at each mark: it passed anywhere within half a reading. */
    public double[] stdU_rad(Turning turning) {
        double[] u = new double[count()];
        for (int m = 0; m < u.length; m++) {
            u[m] = Math.max(1e-4, turning.speed_rad_per_s(time_s[m]) * early_s[m] / Math.sqrt(3));
        }
        return u;
    }

    public double[] angles_rad() {
        double[] angle = new double[count()];
        for (int m = 0; m < angle.length; m++) {
            angle[m] = m * step_rad;
        }
        return angle;
    }
}
