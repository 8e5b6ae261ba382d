package sweepbook.acquisition.source;

import java.util.Optional;
import sweepbook.acquisition.source.Event.CadenceFound;
import sweepbook.acquisition.source.Event.CadenceLost;

/**
 * Puts readings that an adapter held back and handed over in bunches on the device's own cadence. Times that come evenly
 * are left as they are, and so are those of a device that keeps no cadence.
 *
 * <p>An adapter that waits for its timer delays each reading by something from nothing to the timer's time. So the device's
 * own times lie on a line t = t0 + n T below all arrivals: T by least squares over the last arrivals, t0 from the one that
 * was delayed least. No reading gets a time behind its arrival. Used by one thread.
 */
final class EvenTimes {
    /** Fewer do not show a cadence. */
    private static final int FEWEST = 64;

    private static final int MOST = 256;

    /** At least this share of the readings is handed over together with the one ahead. */
    private static final double BUNCHED = 0.2;

    /** Closer than this part of a cycle is together. */
    private static final double TOGETHER = 0.25;

    /** The latency timers of adapters go up to 16 ms by common practice; the computer adds its own. */
    private static final double LONGEST_DELAY_S = 0.025;

    /** A delay so much longer than those before means that readings were lost: the count no longer holds. */
    private static final double SLACK = 1.25;

    /** Or by so much of a cycle. */
    private static final double PART_OF_A_CYCLE = 0.25;

    private final double[] arrival_s = new double[MOST];
    private final long[] count = new long[MOST];
    private long next;
    private int held;
    /** What the last frame of a piece took on the wire. */
    private double frame_s = Double.POSITIVE_INFINITY;

    private double cycle_s;
    private double delay_s;
    private boolean even;
    private Optional<Event> news = Optional.empty();

    /** When a reading was sent that came with a piece of that arrival, and would have been sent then if nothing held it. */
    double sent_s(double seeming_s, double arrivedAt_s) {
        int at = (int) (next % MOST);
        arrival_s[at] = arrivedAt_s;
        frame_s = Math.min(frame_s, arrivedAt_s - seeming_s);
        count[at] = held == 0 ? 0 : count[(int) ((next + MOST - 1) % MOST)] + 1;
        next++;
        held = Math.min(held + 1, MOST);
        if (held >= FEWEST) {
            double fitted_s = fitted_s(at);
            return even ? fitted_s - frame_s : seeming_s;
        }
        return seeming_s;
    }

    /** What has changed about the times since this was asked last. */
    Optional<Event> news() {
        Optional<Event> told = news;
        news = Optional.empty();
        return told;
    }

    /** A frame came that was no reading: the cadence goes on without it. */
    void missedOne() {
        if (held > 0) {
            count[(int) ((next + MOST - 1) % MOST)]++;
        }
    }

    /** The link was lost: what follows has a count of its own. */
    void startAnew(double time_s) {
        held = 0;
        if (even) {
            even = false;
            news = Optional.of(new CadenceLost(time_s));
        }
    }

    private double fitted_s(int at) {
        double usual_s = (time_s(held - 1) - time_s(0)) / (place(held - 1) - place(0));
        double step_s = step_s(usual_s);
        double least_s = Double.POSITIVE_INFINITY;
        double most_s = Double.NEGATIVE_INFINITY;
        int together = 0;
        for (int i = 0; i < held; i++) {
            double off_s = time_s(i) - step_s * (place(i) - place(0));
            least_s = Math.min(least_s, off_s);
            most_s = Math.max(most_s, off_s);
            together += i > 0 && isTogether(i - 1, usual_s) ? 1 : 0;
        }
        decide(most_s - least_s, step_s, together, arrival_s[at]);
        return least_s + step_s * (count[at] - place(0));
    }

    /** The cycle by least squares over the last of each bunch, which were held back less than the others. */
    private double step_s(double usual_s) {
        int bunches = 0;
        double middle = 0;
        double mean_s = 0;
        for (int i = 0; i < held - 1; i++) {
            if (!isTogether(i, usual_s)) {
                bunches++;
                middle += place(i) - place(0);
                mean_s += time_s(i) - time_s(0);
            }
        }
        if (bunches < 2) {
            return usual_s;
        }
        middle /= bunches;
        mean_s /= bunches;
        double squares = 0;
        double products_s = 0;
        for (int i = 0; i < held - 1; i++) {
            if (!isTogether(i, usual_s)) {
                double off = place(i) - place(0) - middle;
                squares += off * off;
                products_s += off * (time_s(i) - time_s(0) - mean_s);
            }
        }
        return products_s / squares;
    }

    /** Whether the i-th and the next came together. */
    private boolean isTogether(int i, double usual_s) {
        return time_s(i + 1) - time_s(i) < TOGETHER * usual_s;
    }

    private void decide(double spread_s, double step_s, int together, double now_s) {
        if (!even && spread_s <= LONGEST_DELAY_S && together >= BUNCHED * held) {
            even = true;
            cycle_s = step_s;
            delay_s = spread_s;
            news = Optional.of(new CadenceFound(now_s, cycle_s, delay_s));
        } else if (even && spread_s > Math.max(SLACK * delay_s, delay_s + PART_OF_A_CYCLE * cycle_s)) {
            startAnew(now_s);
        } else if (even && held < MOST) {
            // The first readings did not meet the longest delay yet.
            delay_s = Math.max(delay_s, spread_s);
        }
    }

    /** The i-th of the arrivals held, from the oldest. */
    private double time_s(int i) {
        return arrival_s[(int) ((next - held + i) % MOST)];
    }

    private long place(int i) {
        return count[(int) ((next - held + i) % MOST)];
    }
}
