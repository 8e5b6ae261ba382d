package sweepbook.acquisition.source;

import java.util.function.Consumer;
import sweepbook.acquisition.source.Event.FrameDropped;
import sweepbook.acquisition.source.Event.FramesDropped;

/**
 * Passes the first dropped frames of a while on one by one and counts the rest: noise without end must not fill a disk.
 * Used by one thread.
 */
final class DropTally {
    /** So many show what is wrong. */
    private static final int TOLD = 20;

    private static final double WHILE_S = 5;

    private final Consumer<Event> events;
    private double begun_s = Double.NaN;
    private int told;
    private long untold;
    private double from_s;
    private double until_s;

    DropTally(Consumer<Event> events) {
        this.events = events;
    }

    /** Takes a frame that was found bad just now. */
    void take(FrameDropped drop, double now_s) {
        settle(now_s);
        if (Double.isNaN(begun_s)) {
            begun_s = now_s;
            told = 0;
        }
        if (told < TOLD) {
            told++;
            events.accept(drop);
        } else {
            from_s = untold == 0 ? drop.time_s() : from_s;
            until_s = drop.time_s();
            untold++;
        }
    }

    /** Tells the count once the while is over. */
    void settle(double now_s) {
        if (now_s - begun_s >= WHILE_S) {
            end();
        }
    }

    /** Tells the count now. */
    void end() {
        if (untold > 0) {
            events.accept(new FramesDropped(from_s, until_s, untold));
        }
        untold = 0;
        begun_s = Double.NaN;
    }
}
