package sweepbook.simulator.machine;

import java.util.ArrayList;
import java.util.List;

/**
 * The machine in motion: one axis at a time, in virtual time that only its motions advance. It remembers where it was, so
 * that an indicator can be read at any instant up to {@link #now_s()}. Used by one thread.
 */
public final class VirtualMachine {
    /** Motion of one axis: the truth lags the drive by at most half the backlash. */
    private record Leg(double from_s, Pose driven, Pose truth, Axis axis, Course course) {
        double driven(double time_s) {
            return driven.of(axis) + course.travel(Math.min(time_s - from_s, course.duration_s()));
        }
    }

    private final double shownStep_mm;
    private final double backlash_mm;
    private final List<Leg> legs = new ArrayList<>();
    private Pose driven;
    private Pose truth;
    private double now_s;

    /**
     * @param start where the axes stand
     * @param shownStep_mm step of the position that the controller shows
     * @param backlash_mm play of the linear axes between drive and slide, 0 for none
     */
    public VirtualMachine(Pose start, double shownStep_mm, double backlash_mm) {
        this.driven = start;
        this.truth = start;
        this.shownStep_mm = shownStep_mm;
        this.backlash_mm = backlash_mm;
    }

    /** Virtual time. */
    public double now_s() {
        return now_s;
    }

    /** Where the slides truly stand now. */
    public Pose pose() {
        return truth;
    }

    /** Nothing moves for a while. */
    public void hold(double duration_s) {
        now_s += duration_s;
    }

    /** One axis travels. */
    public void move(Axis axis, Course course) {
        Leg leg = new Leg(now_s, driven, truth, axis, course);
        legs.add(leg);
        now_s += course.duration_s();
        driven = driven.with(axis, leg.driven(now_s));
        truth = truth(leg, now_s);
    }

    /** Where the slides truly stood at an instant that has passed. */
    public Pose at(double time_s) {
        if (time_s >= now_s) {
            return truth;
        }
        int low = 0;
        int high = legs.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (legs.get(middle).from_s() <= time_s) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        if (low == 0) {
            return legs.isEmpty() ? truth : legs.get(0).truth();
        }
        return truth(legs.get(low - 1), time_s);
    }

    /** What the controller shows now: the drive's position to the step of its display; degrees for a rotary axis. */
    public double shown(Axis axis) {
        return Math.rint(driven.of(axis) / shownStep_mm) * shownStep_mm;
    }

    private Pose truth(Leg leg, double time_s) {
        double drive = leg.driven(time_s);
        boolean linear = leg.axis() != Axis.A && leg.axis() != Axis.C;
        double play = linear ? backlash_mm / 2 : 0;
        double slide = Math.max(drive - play, Math.min(drive + play, leg.truth().of(leg.axis())));
        return leg.truth().with(leg.axis(), slide);
    }
}
