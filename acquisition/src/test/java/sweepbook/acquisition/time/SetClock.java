package sweepbook.acquisition.time;

import java.time.Instant;

/** A clock that a test sets; wall and monotonic time are far apart, so that mixing them shows. */
public final class SetClock implements Clock {
    private double monotonic_s = 5;
    private Instant wall = Instant.parse("2026-03-02T08:15:00Z");

    @Override
    public synchronized double monotonic_s() {
        return monotonic_s;
    }

    @Override
    public synchronized Instant wall() {
        return wall;
    }

    public synchronized void advance(double by_s) {
        monotonic_s += by_s;
        wall = wall.plusNanos(Math.round(by_s * 1e9));
    }
}
