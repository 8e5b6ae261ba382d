package sweepbook.cli.live;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.trace.Reading;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

/** The virtual joinery's indicator without a link: what the technician does, and standing readings in between. */
final class VirtualSource extends MicrometreSource {
    private final VirtualJob job;
    private final Deque<Event> events = new ArrayDeque<>();
    private final List<Reading> given = new ArrayList<>();

    VirtualSource(long seed) {
        this(JoineryScenario.of(seed));
    }

    VirtualSource(VirtualJob job) {
        this.job = job;
    }

    /** Has the technician make the touch; its readings come next. */
    VirtualTouch touch(String offset, int touch) {
        return given(job.touch(offset, touch));
    }

    /** The same for the first feature of the offset, with the head swivelled otherwise. */
    VirtualTouch touchSwivelled(String offset, double swivel_deg) {
        return given(job.touchSwivelled(offset, swivel_deg));
    }

    private VirtualTouch given(VirtualTouch made) {
        for (int i = 0; i < made.trace().size(); i++) {
            events.add(new Event.ReadingTaken(made.trace().reading(i)));
        }
        return made;
    }

    /** Somebody leans on the stand. */
    void bumpStand(double step_mm) {
        job.bumpStand(step_mm);
    }

    double trueOffset_mm(String offset) {
        return job.trueOffset_mm(offset);
    }

    /** The technician breaks off. */
    void stop() {
        events.clear();
    }

    /** Something else than a reading comes next. */
    void happens(Event event) {
        events.addFirst(event);
    }

    /** Every reading that was asked for so far. */
    List<Reading> given() {
        return given;
    }

    @Override
    public Event next(Duration timeout) {
        Event event = events.isEmpty() ? new Event.ReadingTaken(job.standing()) : events.remove();
        if (event instanceof Event.ReadingTaken taken) {
            given.add(taken.reading());
        }
        return event;
    }
}
