package sweepbook.acquisition.time;

import java.time.Instant;

/** Two times that are never mixed: intervals come from the monotonic one, dates from the wall. */
public interface Clock {
    /** Seconds since this clock was made; never goes back, whatever the wall clock does. */
    double monotonic_s();

    /** The time of day, as far as the computer knows it. */
    Instant wall();

    /** The computer's clocks, the monotonic one counting from now. */
    static Clock system() {
        return new SystemClock();
    }
}
