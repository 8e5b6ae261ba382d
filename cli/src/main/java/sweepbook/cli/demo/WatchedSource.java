package sweepbook.cli.demo;

import java.io.IOException;
import java.time.Duration;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.trace.LengthUnit;

/** Counts the frames that have been looked at, so that the virtual technician knows what has been seen. */
final class WatchedSource implements ReadingSource {
    private final ReadingSource source;
    private long frames;

    WatchedSource(ReadingSource source) {
        this.source = source;
    }

    /** Frames so far, those that were dropped too. */
    long frames() {
        return frames;
    }

    @Override
    public Event next(Duration timeout) throws IOException {
        Event event = source.next(timeout);
        if (event instanceof Event.ReadingTaken || event instanceof Event.FrameDropped) {
            frames++;
        }
        return event;
    }

    @Override
    public String name() {
        return source.name();
    }

    @Override
    public LengthUnit unit() {
        return source.unit();
    }

    @Override
    public double resolution_mm() {
        return source.resolution_mm();
    }

    @Override
    public boolean hasMarks() {
        return source.hasMarks();
    }

    @Override
    public void close() {
        source.close();
    }
}
