package sweepbook.simulator.job;

import java.util.Random;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Shape.Face;
import sweepbook.simulator.machine.Shape.Pin;
import sweepbook.simulator.machine.Vec3;
import sweepbook.simulator.machine.VirtualMachine;
import sweepbook.simulator.technician.Technician;

/** The motions of one touch: approach, sweep, stop on the crest, jog in to zero, and, before the next, back off. */
final class TouchScript {
    /** Nothing in the scenario reaches over this height above the place of the touch. */
    private static final double LIFT_MM = 90;

    /** The head's whole length swings under the tilt axis. */
    private static final double LIFT_TO_TILT_MM = 350;

    private static final double BACK_OFF_MM = 15;

    private final WorkPlace place;
    private final VirtualMachine machine;
    private final SoughtOffset offset;
    private final Pose rotary;
    private final Feature feature;
    private final Technician technician;
    private final Random random;

    TouchScript(
            WorkPlace place, VirtualMachine machine, SoughtOffset offset, SoughtOffset.Target target, Random random) {
        this.place = place;
        this.machine = machine;
        this.offset = offset;
        this.rotary = Pose.HOME.with(Axis.C, target.swivel_deg()).with(Axis.A, target.tilt_deg());
        this.feature = place.feature(target.feature());
        this.technician = new Technician(machine, place.hand(), random);
        this.random = random;
    }

    /** Waits a moment, lets the plunger out and lifts clear. */
    void backOff() {
        technician.hold(between(0.5, 1.5));
        technician.go(axis(), machine.pose().of(axis()) - offset.direction() * BACK_OFF_MM, between(1, 2));
        technician.go(Axis.Z, machine.pose().z_mm() + LIFT_MM, between(1, 2));
    }

    /** Swivels, tilts, goes beside the contact, down to its height, and comes against it on the flank. */
    void approach() {
        Pose crest = poseAtPress_mm(sweepPress_mm());
        Pose before = crest.with(axis(), crest.of(axis()) - offset.direction() * BACK_OFF_MM);
        if (isRound()) {
            before = before.with(offset.swept(), crest.of(offset.swept()) + width_mm() * between(0.8, 1.1));
        }
        technician.go(Axis.C, rotary.c_deg(), between(2, 4));
        if (machine.pose().a_deg() != rotary.a_deg()) {
            technician.go(Axis.Z, machine.pose().z_mm() + LIFT_TO_TILT_MM, between(1, 2));
            technician.go(Axis.A, rotary.a_deg(), between(2, 4));
        }
        technician.go(Axis.X, before.x_mm(), between(1, 3));
        technician.go(Axis.Y, before.y_mm(), between(1, 3));
        technician.go(Axis.Z, before.z_mm(), between(1, 3));
        technician.hold(between(0.5, 1.5));
        technician.go(axis(), crest.of(axis()), between(1.5, 4));
        technician.hold(between(0.3, 1));
    }

    /** Passes over the crest and stops on it, nearly; a flat face only stands. */
    void sweep() {
        if (isRound()) {
            double crest = poseAtPress_mm(0).of(offset.swept());
            int passes = 3 + random.nextInt(3);
            for (int i = 0; i < passes; i++) {
                double side = i % 2 == 0 ? -1 : 1;
                technician.pass(offset.swept(), crest, crest + side * width_mm() * between(0.8, 1.1), between(2, 4));
                technician.hold(between(0.05, 0.4));
            }
            technician.go(offset.swept(), crest + 0.04 * width_mm() * random.nextGaussian(), between(1, 2));
        }
        // As long as it takes to be told that the reading stands still.
        technician.hold(between(4.5, 6));
    }

    /** Jogs to the click nearest to zero and takes the hands off. */
    void jogIn() {
        double left_mm = place.indicator().preload_mm() - press_mm(machine.pose());
        int clicks = (int) Math.max(1, Math.rint(left_mm / place.click_mm()));
        technician.jog(axis(), clicks, offset.direction() * place.click_mm(), between(0.35, 0.7));
        technician.hold(between(5, 7));
    }

    /** The press that the crest of the feature gives at the present position of the measured axis. */
    double crestPress_mm() {
        Pose pose = machine.pose();
        return isRound() ? press_mm(pose.with(offset.swept(), poseAtPress_mm(0).of(offset.swept()))) : press_mm(pose);
    }

    private double press_mm(Pose pose) {
        return offset.contact().press_mm(feature, pose);
    }

    /** Some clicks short of zero, as near as the hand comes. */
    private double sweepPress_mm() {
        return place.indicator().preload_mm() - place.click_mm() * between(4, 14);
    }

    /** Where the axes stand when the feature's crest presses this much; the technician's eye finds it. */
    private Pose poseAtPress_mm(double press_mm) {
        Vec3 middle = feature.carrier().place(middle(), rotary);
        Vec3 centre = offset.contact().ball().plus(Vec3.on(axis(), offset.direction() * (press_mm - reach_mm())));
        Vec3 linear = centre.minus(middle);
        return new Pose(linear.x(), linear.y(), linear.z(), rotary.a_deg(), rotary.c_deg());
    }

    private Vec3 middle() {
        if (feature.shape() instanceof Pin pin) {
            return pin.end().plus(pin.axis().times(pin.length_mm() / 2));
        }
        return ((Face) feature.shape()).middle();
    }

    private boolean isRound() {
        return feature.shape() instanceof Pin;
    }

    private double reach_mm() {
        double radius_mm = feature.shape() instanceof Pin pin ? pin.radius_mm() : 0;
        return radius_mm + offset.contact().radius_mm();
    }

    /** A pass goes down the flank by a quarter of a millimetre. */
    private double width_mm() {
        return Math.sqrt(2 * reach_mm() * 0.25);
    }

    private Axis axis() {
        return offset.axis();
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }
}
