package sweepbook.analysis.runout.angle;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.uncertainty.Finding;

/**
 * Witness marks, equally spaced about the part, and the motion they tell: a monotone cubic through them.
 *
 * @param time_s when each passed, in the middle of what its reading allows
 * @param number which one each is, the first told 0; ascending, with a gap where one was not told
 * @param step_rad angle between two of them
 * @param early_s how much earlier or later than its reading a mark may have passed: half the time between readings
 */
public record TurnMarks(double[] time_s, int[] number, double step_rad, double[] early_s) {
    /** How much later than it passed a mark may be told at most, as a share of their spacing. */
    private static final double MOST_LATE = 0.1;

    /** Marks of which each was told. */
    public TurnMarks(double[] time_s, double step_rad, double[] early_s) {
        this(time_s, IntStream.range(0, time_s.length).toArray(), step_rad, early_s);
    }

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

    static String seconds(double time_s) {
        return String.format(Locale.ROOT, "%.2f s", time_s);
    }

    public int count() {
        return time_s.length;
    }

    /** The same marks, were there another number of them a turn. */
    public TurnMarks asPerTurn(int marks) {
        return new TurnMarks(time_s, number, 2 * Math.PI / marks, early_s);
    }

    /** Without the m-th, and each after it one number later or earlier by so many. */
    TurnMarks without(int m, int later) {
        return renumbered(IntStream.range(0, count()).filter(k -> k != m).toArray(), m, later);
    }

    /** Each after the m-th so many numbers later. */
    TurnMarks later(int m, int by) {
        return renumbered(IntStream.range(0, count()).toArray(), m, by);
    }

    private TurnMarks renumbered(int[] kept, int m, int later) {
        return new TurnMarks(
                Arrays.stream(kept).mapToDouble(k -> time_s[k]).toArray(),
                Arrays.stream(kept).map(k -> number[k] + (k > m ? later : 0)).toArray(),
                step_rad,
                Arrays.stream(kept).mapToDouble(k -> early_s[k]).toArray());
    }

    /** Whether the marks pass at one speed, as far as the readings that carry them can tell. */
    public boolean passEvenly() {
        int n = count();
        double interval = (time_s[n - 1] - time_s[0]) / (number[n - 1] - number[0]);
        for (int m = 0; m < n; m++) {
            if (Math.abs(time_s[m] - time_s[0] - (number[m] - number[0]) * interval) > 3 * early_s[m]) {
                return false;
            }
        }
        return true;
    }

    /**
     * Says where a motion goes so far before the first mark or after the last that another should have been told there.
     *
     * @param sure how much of what it goes there is sure, from 0 to 1
     */
    public Optional<String> silence(Turning turning, double from_s, double to_s, double sure) {
        int last = count() - 1;
        double before = number[0] - turning.angle_rad(from_s) / step_rad;
        double after = turning.angle_rad(to_s) / step_rad - number[last];
        double readings = 3 * Math.max(early_s[0], early_s[last]) * turning.speed_rad_per_s((from_s + to_s) / 2);
        double most = 1 + MOST_LATE + readings / step_rad;
        if (sure * Math.max(before, after) <= most) {
            return Optional.empty();
        }
        return Optional.of((before > after
                        ? "before the mark at " + seconds(time_s[0])
                        : "after the mark at " + seconds(time_s[last]))
                + " the part turned on as far as another, which was not told: it was missed, the turning stopped or"
                + " went back, or the marks per turn are not as told; turn again");
    }

    /** The motion that the marks alone tell, angle zero at the first; needs two marks. */
    public Turning turning() {
        int n = count();
        double[] angle = angles_rad();
        double[] speed = new double[n];
        for (int m = 0; m < n; m++) {
            if (m == 0 || m == n - 1) {
                int k = m == 0 ? 0 : n - 2;
                speed[m] = (angle[k + 1] - angle[k]) / (time_s[k + 1] - time_s[k]);
            } else {
                // The harmonic mean of the speeds before and after, weighted by time, keeps the cubic monotone
                // (Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300).
                double before = time_s[m] - time_s[m - 1];
                double after = time_s[m + 1] - time_s[m];
                double w1 = 2 * after + before;
                double w2 = after + 2 * before;
                speed[m] =
                        (w1 + w2) / (w1 * before / (angle[m] - angle[m - 1]) + w2 * after / (angle[m + 1] - angle[m]));
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
            angle[m] = number[m] * step_rad;
        }
        return angle;
    }
}
