package sweepbook.acquisition.time;

import java.time.Instant;

/** The computer's own clocks. */
final class SystemClock implements Clock {
    private final long origin_ns = System.nanoTime();

    @Override
    public double monotonic_s() {
        return (System.nanoTime() - origin_ns) / 1e9;
    }

    @Override
    public Instant wall() {
        return Instant.now();
    }
}
