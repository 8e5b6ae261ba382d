package sweepbook.cli.live;

import java.time.Duration;
import java.util.Random;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.trace.Reading;

/** An indicator whose contact stands on a level, with noise and steps of a micrometre. */
final class StandingSource extends MicrometreSource {
    private final Random random;
    private double level_mm;
    private int readings;

    StandingSource(long seed) {
        this.random = new Random(seed);
    }

    /** Bringing it there takes two seconds, in which nobody reads. */
    void standAt(double reading_mm) {
        readings += 50;
        level_mm = reading_mm;
    }

    @Override
    public Event next(Duration timeout) {
        double shown_mm = Math.rint(1000 * (level_mm + 0.0005 * random.nextGaussian())) / 1000;
        return new Event.ReadingTaken(new Reading(0.04 * readings++, shown_mm));
    }
}
