package sweepbook.cli.proof;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import sweepbook.analysis.offset.Touch;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Vec3;

/** The touches of an offset on a set-up, with what they should give. */
final class Scene {
    private static final Vec3 DOWN = new Vec3(0, 0, -1);

    private final double truth;
    private final List<Touch> touches = new ArrayList<>();
    private final List<OptionalDouble> travels_mm = new ArrayList<>();

    private Scene(double truth) {
        this.truth = truth;
    }

    /** In the unit of the offset. */
    double truth() {
        return truth;
    }

    List<Touch> touches() {
        return touches;
    }

    /** Of each touch, how far along its travel it is, if it has one. */
    List<OptionalDouble> travels_mm() {
        return travels_mm;
    }

    private Scene with(Touch touch) {
        touches.add(touch);
        travels_mm.add(OptionalDouble.empty());
        return this;
    }

    /** A touch so far along a travel from where the middle of the thing is before the contact. */
    private Scene with(Thing thing, Axis measured, Axis travel, double along_mm, Pose rotary, double time_s) {
        double travel_mm = thing.travelToMiddle_mm(travel, rotary) + along_mm;
        touches.add(thing.touchAtTravel(measured, travel, travel_mm, rotary, time_s));
        travels_mm.add(OptionalDouble.of(travel_mm));
        return this;
    }

    /** The end of a pin in the spindle, once to either side by half a turn of the swivel. */
    static Scene endAtBothTilts(SetUp setUp) {
        // The end looks to where the head presses: plus Y at A = 90, minus Y at A = -90.
        double tilt_deg = 90 * setUp.direction.sign();
        Thing end = Thing.face(setUp, "end of the pin", place(setUp), DOWN);
        return new Scene(setUp.head.swivelToTilt().y())
                .with(end.touch(Axis.Y, Pose.HOME.with(Axis.A, tilt_deg), 0))
                .with(end.touch(Axis.Y, turned(-tilt_deg), 150));
    }

    /** From the nose of the spindle to that of the drill unit. */
    static Scene noseToNose(SetUp setUp) {
        Thing spindle = Thing.face(setUp, "spindle nose", place(setUp), setUp.out(Axis.Z));
        Thing drill = Thing.face(setUp, "drill nose", place(setUp), setUp.out(Axis.Z));
        return new Scene(drill.middle().z() - spindle.middle().z())
                .with(spindle.touch(Axis.Z, Pose.HOME, 0))
                .with(drill.touch(Axis.Z, Pose.HOME, 150));
    }

    /** A plate in the spindle, travelled along at both ends of X, before and after half a turn of the spindle. */
    static Scene plateAcross(SetUp setUp) {
        double off_deg = setUp.between(-0.05, 0.05);
        Pose pose = Pose.HOME.with(Axis.A, 90 * setUp.direction.sign()).with(Axis.C, off_deg);
        // The plate is not square to the spindle; half a turn of the spindle turns its lean over.
        Vec3 lean = new Vec3(setUp.between(-5e-4, 5e-4), setUp.between(-5e-4, 5e-4), 0);
        Vec3 middle = place(setUp);
        Thing before = Thing.face(setUp, "plate", middle, DOWN.plus(lean).unit());
        Thing after = Thing.face(setUp, "plate", middle, DOWN.minus(lean).unit());
        return new Scene(-off_deg)
                .with(before, Axis.Y, Axis.X, -120, pose, 0)
                .with(before, Axis.Y, Axis.X, 120, pose, 60)
                .with(after, Axis.Y, Axis.X, 120, pose, 120)
                .with(after, Axis.Y, Axis.X, -120, pose, 180);
    }

    /** A bar in the spindle, travelled along at both ends of Z, before and after half a turn of the spindle. */
    static Scene barAlong(SetUp setUp) {
        double off_deg = setUp.between(-0.05, 0.05);
        Pose pose = Pose.HOME.with(Axis.A, off_deg);
        // The bar is neither straight in the spindle nor in its middle; half a turn of the spindle turns both over.
        Vec3 lean = new Vec3(setUp.between(-2e-4, 2e-4), setUp.between(-2e-4, 2e-4), 0);
        Vec3 out = new Vec3(setUp.between(-0.02, 0.02), setUp.between(-0.02, 0.02), 0);
        Vec3 middle = place(setUp);
        Thing before =
                Thing.bar(setUp, "test bar", middle.plus(out), DOWN.plus(lean).unit());
        Thing after = before.at(middle.minus(out), DOWN.minus(lean).unit());
        return new Scene(-off_deg)
                .with(before, Axis.Y, Axis.Z, 120, pose, 0)
                .with(before, Axis.Y, Axis.Z, -120, pose, 60)
                .with(after, Axis.Y, Axis.Z, -120, pose, 120)
                .with(after, Axis.Y, Axis.Z, 120, pose, 180);
    }

    private static Vec3 place(SetUp setUp) {
        return new Vec3(setUp.between(-60, 60), setUp.between(-2, 2), setUp.between(-260, -180));
    }

    private static Pose turned(double tilt_deg) {
        return Pose.HOME.with(Axis.C, 180).with(Axis.A, tilt_deg);
    }

    static Scene halfTurnOfTheSwivel(SetUp setUp, Axis axis) {
        Thing pin = Thing.pin(setUp, "spindle pin", place(setUp), Axis.Z);
        return new Scene(setUp.head.fromSwivelAxis(pin.middle()).along(axis))
                .with(pin.touch(axis, Pose.HOME, 0))
                .with(pin.touch(axis, Pose.HOME.with(Axis.C, 180), 150));
    }

    static Scene halfTurnOfTheTilt(SetUp setUp) {
        Thing pin = Thing.pin(setUp, "pin", place(setUp), Axis.Z);
        return new Scene(pin.middle().y())
                .with(pin.touch(Axis.Z, Pose.HOME.with(Axis.A, 90), 0))
                .with(pin.touch(Axis.Z, turned(-90), 150));
    }

    static Scene tiltAxisToFace(SetUp setUp) {
        Thing pin = Thing.pin(setUp, "pin", place(setUp), Axis.Z);
        Thing face = Thing.face(setUp, "face", place(setUp), setUp.out(Axis.Z));
        return new Scene(face.middle().z())
                .with(pin.touch(Axis.Z, Pose.HOME.with(Axis.A, 90), 0))
                .with(face.touch(Axis.Z, Pose.HOME, 100))
                .with(pin.touch(Axis.Z, turned(-90), 200));
    }

    static Scene pinToPin(SetUp setUp, Axis axis) {
        Thing spindle = Thing.pin(setUp, "spindle pin", place(setUp), Axis.Z);
        Thing drill = Thing.pin(setUp, "drill pin", place(setUp), Axis.Z);
        return new Scene(drill.middle().along(axis) - spindle.middle().along(axis))
                .with(spindle.touch(axis, Pose.HOME, 0))
                .with(drill.touch(axis, Pose.HOME, 150));
    }

    static Scene swung(SetUp setUp, double towards_deg) {
        SwungContact contact = new SwungContact(setUp);
        Scene scene = new Scene(contact.lean_deg(towards_deg));
        for (int step = 0; step < 4; step++) {
            scene.with(contact.touch(90.0 * step, 60.0 * step));
        }
        return scene;
    }
}
