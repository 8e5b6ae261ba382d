package sweepbook.simulator.trial;

import static sweepbook.simulator.trial.SweepTrials.between;
import static sweepbook.simulator.trial.SweepTrials.ratioBetween;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.VirtualMachine;
import sweepbook.simulator.technician.Crossing;
import sweepbook.simulator.technician.Hand;
import sweepbook.simulator.technician.Technician;

/**
 * What the technician did in a trial: press in, sweep, stop on the crest, jog in to zero, hold.
 *
 * @param machine which remembers its motion
 * @param stop_mm by how much the stop missed the crest
 */
record SweepScript(
        VirtualMachine machine,
        List<Crossing> crossings,
        double stop_mm,
        int clicks,
        double sweepFrom_s,
        double sweepTo_s,
        double zeroFrom_s) {

    static SweepScript perform(SweepKind kind, SweepSetUp setUp, Random random) {
        boolean free = kind == SweepKind.FREE_START;
        boolean pressedAlready = !free && random.nextBoolean();
        double backedOff_mm = pressedAlready || free ? setUp.sweepPress_mm() : -between(0.5, 3, random);
        double side = random.nextBoolean() ? 1 : -1;
        double outside_mm = free
                ? setUp.clear_mm(setUp.sweepPress_mm()) * between(1.02, 1.15, random)
                : setUp.width_mm() * between(0.8, 1.1, random);
        ClickPlan plan = ClickPlan.of(setUp, random);
        if (kind == SweepKind.CLICK_WISE) {
            outside_mm = plan.start_mm();
        }
        VirtualMachine machine = new VirtualMachine(new Pose(backedOff_mm, side * outside_mm, 0, 0, 0), 0.001, 0);
        Technician technician = new Technician(machine, hand(kind), random);
        technician.hold(between(0.3, 2.5, random));
        technician.go(Axis.X, setUp.sweepPress_mm(), between(1, 3, random));
        technician.hold(between(0.1, 1, random));

        double sweepFrom_s = machine.now_s();
        int passes = kind == SweepKind.ONE_PASS ? 1 : 3 + random.nextInt(4);
        List<Crossing> crossings = kind == SweepKind.CLICK_WISE
                ? plan.sweep(technician, side, Math.min(passes, 3), random)
                : sweep(technician, setUp, side, passes, random);
        double stop_mm = setUp.width_mm() * 0.08 * random.nextGaussian();
        technician.go(Axis.Y, stop_mm, between(1, 2.5, random));
        double sweepTo_s = machine.now_s();
        technician.hold(between(1, 3, random));

        double zero_mm = setUp.settings().preload_mm() - setUp.press_mm(machine.pose());
        int clicks = (int) Math.max(1, Math.rint(zero_mm / setUp.click_mm()));
        technician.jog(Axis.X, clicks, setUp.click_mm(), between(0.3, 0.8, random));
        double zeroFrom_s = machine.now_s();
        technician.hold(between(3, 8, random));
        return new SweepScript(machine, crossings, stop_mm, clicks, sweepFrom_s, sweepTo_s, zeroFrom_s);
    }

    private static Hand hand(SweepKind kind) {
        return switch (kind) {
            case UNEVEN_HAND, FREE_START, EVERYTHING -> Hand.UNEVEN;
            default -> Hand.EVEN;
        };
    }

    private static List<Crossing> sweep(
            Technician technician, SweepSetUp setUp, double side, int passes, Random random) {
        // At least some 15 readings a pass, whatever the cadence.
        double usual_s =
                Math.max(ratioBetween(1.5, 6, random), 15 * setUp.settings().interval_s());
        List<Crossing> crossings = new ArrayList<>();
        for (int i = 0; i < passes; i++) {
            double to_mm = (i % 2 == 0 ? -side : side) * setUp.width_mm() * between(0.7, 1.1, random);
            crossings.add(technician.pass(Axis.Y, 0, to_mm, usual_s * between(0.8, 1.25, random)));
            technician.hold(between(0.05, 0.4, random));
        }
        return crossings;
    }

    /** A sweep in equal clicks that do not as a rule fall on the crest. */
    private record ClickPlan(double click_mm, int each, double offset, double wait_s) {
        static ClickPlan of(SweepSetUp setUp, Random random) {
            double click_mm = setUp.click_mm();
            while (setUp.width_mm() / click_mm > 60) {
                click_mm *= 2;
            }
            int each = (int) Math.max(8, setUp.width_mm() / click_mm);
            return new ClickPlan(click_mm, each, between(-0.5, 0.5, random), between(0.12, 0.35, random));
        }

        double start_mm() {
            return click_mm * (each + offset);
        }

        List<Crossing> sweep(Technician technician, double side, int passes, Random random) {
            List<Crossing> crossings = new ArrayList<>();
            double towards = -side;
            int at = each;
            for (int i = 0; i < passes; i++) {
                int beyond = (int) (each * between(0.7, 1.1, random));
                crossings.add(technician.clickPass(Axis.Y, 0, at + beyond, towards * click_mm, wait_s));
                technician.hold(between(0.3, 1, random));
                towards = -towards;
                at = beyond;
            }
            return crossings;
        }
    }
}
