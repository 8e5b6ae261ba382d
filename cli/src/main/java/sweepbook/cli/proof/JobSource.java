package sweepbook.cli.proof;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

/** The indicator of a simulated job without a link: the readings of each touch, then of what stands. */
final class JobSource implements ReadingSource {
    private final VirtualJob job;
    private final Deque<Event> events = new ArrayDeque<>();

    JobSource(VirtualJob job) {
        this.job = job;
    }

    /** Has the touch made; its readings come next. */
    VirtualTouch touch(String offset, int touch) {
        VirtualTouch made = job.touch(offset, touch);
        for (int i = 0; i < made.trace().size(); i++) {
            events.add(new Event.ReadingTaken(made.trace().reading(i)));
        }
        return made;
    }

    /** Whether all readings of the touch have been looked at. */
    boolean isAllSeen() {
        return events.isEmpty();
    }

    @Override
    public Event next(Duration timeout) {
        return events.isEmpty() ? new Event.ReadingTaken(job.standing()) : events.remove();
    }

    @Override
    public String name() {
        return "simulated:";
    }

    @Override
    public LengthUnit unit() {
        return job.machineUnit();
    }

    @Override
    public double resolution_mm() {
        return job.indicatorSettings().display().resolution_mm();
    }

    @Override
    public boolean hasMarks() {
        return false;
    }

    @Override
    public void close() {}
}
