package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;

/** The whole trace cut into what happened, in time order. */
final class Course {
    private final double[] time_s;
    private final List<Segment> segments = new ArrayList<>();
    private int at;

    private Course(CleanTrace trace) {
        time_s = trace.time_s();
    }

    /**
     * @param first reading at which the first pass begins, the trace's size where there is none
     * @param last reading after the last pass
     */
    static List<Segment> of(CleanTrace trace, List<Still> stills, int first, int last, Tail tail) {
        Course course = new Course(trace);
        if (first < trace.size()) {
            course.before(trace, stills, first);
            course.upTo(tail.dwell().map(Still::from).orElse(last), Segment.Kind.SWEEP);
        }
        if (tail.jogged()) {
            course.upTo(tail.dwell().orElseThrow().to(), Segment.Kind.CREST_DWELL);
            course.upTo(tail.rest().orElseThrow().from(), Segment.Kind.JOG);
        }
        tail.stableZero().asOptional().ifPresent(zero -> {
            course.upTo(
                    zero.from(),
                    tail.jogged() || tail.dwell().isEmpty() ? Segment.Kind.OTHER : Segment.Kind.CREST_DWELL);
            course.upTo(zero.to(), Segment.Kind.STABLE_ZERO);
        });
        course.upTo(trace.size(), Segment.Kind.OTHER);
        return course.segments;
    }

    /** Remains of the touch before, a free plunger, the press-in. */
    private void before(CleanTrace trace, List<Still> stills, int first) {
        double lowest = trace.lowest_mm(0, trace.size());
        for (Still still : stills) {
            if (still.to() <= first && still.level_mm() - lowest < trace.leastMove_mm()) {
                upTo(still.from(), segments.isEmpty() ? Segment.Kind.OTHER : Segment.Kind.FREE);
                upTo(still.to(), Segment.Kind.FREE);
            }
        }
        if (!segments.isEmpty()) {
            upTo(first, Segment.Kind.PRESS_IN);
        }
    }

    private void upTo(int to, Segment.Kind kind) {
        if (to > at) {
            segments.add(new Segment(kind, time_s[at], time_s[Math.min(to, time_s.length - 1)]));
            at = to;
        }
    }
}
