package sweepbook.acquisition.source;

/**
 * The time axis of a trace: the clock by which bytes arrive, or the device's own where its frames carry time stamps. It
 * never goes back. Used by one thread.
 */
final class TraceTimes {
    /** Times are given to the microsecond, so that a trace is the same bits in memory and in a file. */
    private static final double TICKS_PER_S = 1e6;

    private double last_s = Double.NEGATIVE_INFINITY;
    private double lastSent_s;
    /** By how much the device's clock is behind ours; 0 where it has none. */
    private double lag_s;

    private double shift_s;

    /** A time of our clock on this axis. */
    double onTrace_s(double clock_s) {
        return ticked(clock_s - lag_s);
    }

    /** The time of a reading that carries none. */
    double ofClock_s(double sent_s) {
        last_s = Math.max(last_s, ticked(sent_s));
        return last_s;
    }

    /** The time of a reading with the device's stamp; a device that starts anew goes on after as long as it was away. */
    double ofDevice_s(double stamp_s, double sent_s) {
        if (stamp_s + shift_s < last_s) {
            shift_s = last_s + Math.max(0, sent_s - lastSent_s) - stamp_s;
        }
        last_s = shift_s == 0 ? stamp_s : Math.max(last_s, ticked(stamp_s + shift_s));
        lastSent_s = sent_s;
        lag_s = sent_s - last_s;
        return last_s;
    }

    private static double ticked(double time_s) {
        return Math.rint(time_s * TICKS_PER_S) / TICKS_PER_S;
    }
}
