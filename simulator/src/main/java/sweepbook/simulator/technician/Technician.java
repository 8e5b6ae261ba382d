package sweepbook.simulator.technician;

import java.util.Random;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.VirtualMachine;

/** Moves the machine as a person does who looks for a high spot. Used by one thread. */
public final class Technician {
    private final VirtualMachine machine;
    private final Hand hand;
    private final Random random;

    public Technician(VirtualMachine machine, Hand hand, Random random) {
        this.machine = machine;
        this.hand = hand;
        this.random = random;
    }

    /** Takes the hands off for a while. */
    public void hold(double duration_s) {
        machine.hold(duration_s);
    }

    /** One continuous move to a position; nothing is read from it, so its evenness does not matter. */
    public void go(Axis axis, double to, double duration_s) {
        double travel = to - machine.pose().of(axis);
        if (travel != 0) {
            machine.move(axis, new HandCourse(travel, duration_s, 0.3, 0, random));
        }
    }

    /** One pass over the crest, to a position on the other flank. */
    public Crossing pass(Axis axis, double crest, double to, double duration_s) {
        double from_s = machine.now_s();
        double from = machine.pose().of(axis);
        if (random.nextDouble() < hand.stops()) {
            double share = 0.15 + 0.7 * random.nextDouble();
            move(axis, from + share * (to - from), share * duration_s);
            machine.hold(0.2 + random.nextDouble());
            move(axis, to, (1 - share) * duration_s);
        } else {
            move(axis, to, duration_s);
        }
        return crossing(from_s, axis, crest, from < to);
    }

    /** One pass over the crest click by click. */
    public Crossing clickPass(Axis axis, double crest, int clicks, double click, double wait_s) {
        double from_s = machine.now_s();
        machine.move(axis, ClickCourse.of(clicks, click, wait_s, 0.05, 0, random));
        return crossing(from_s, axis, crest, click > 0);
    }

    /** Jog clicks towards (or away from) the contact. */
    public void jog(Axis axis, int clicks, double click, double wait_s) {
        machine.move(axis, ClickCourse.of(clicks, click, wait_s, 0.1, hand.stick(), random));
    }

    private void move(Axis axis, double to, double duration_s) {
        double travel = to - machine.pose().of(axis);
        machine.move(axis, new HandCourse(travel, duration_s, hand.ramp(), hand.unevenness(), random));
    }

    /** The instant of the crest by bisection: within a pass the axis never turns back. */
    private Crossing crossing(double from_s, Axis axis, double crest, boolean upwards) {
        double before_s = from_s;
        double after_s = machine.now_s();
        for (int i = 0; i < 60; i++) {
            double middle_s = (before_s + after_s) / 2;
            if (machine.at(middle_s).of(axis) < crest == upwards) {
                before_s = middle_s;
            } else {
                after_s = middle_s;
            }
        }
        return new Crossing(from_s, (before_s + after_s) / 2, machine.now_s());
    }
}
