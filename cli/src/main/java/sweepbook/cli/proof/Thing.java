package sweepbook.cli.proof;

import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Shape;
import sweepbook.simulator.machine.Vec3;

/** A feature of a set-up: its true shape and place, and what the person states of it. */
final class Thing {
    private static final double PIN_LENGTH_MM = 60;
    private static final double BAR_LENGTH_MM = 300;

    private final SetUp setUp;
    private final Feature stated;
    private final Shape shape;
    private final Vec3 middle;

    private Thing(SetUp setUp, Feature stated, Shape shape, Vec3 middle) {
        this.setUp = setUp;
        this.stated = stated;
        this.shape = shape;
        this.middle = middle;
    }

    /** A pin along an axis, whose radius is stated with an error. */
    static Thing pin(SetUp setUp, String name, Vec3 middle, Axis along) {
        Estimate radius = new Estimate(setUp.between(3, 25), setUp.between(0, 0.001), Double.POSITIVE_INFINITY);
        Vec3 end = middle.minus(Vec3.on(along, PIN_LENGTH_MM / 2));
        Shape shape = new Shape.Pin(end, Vec3.on(along, 1), PIN_LENGTH_MM, setUp.near(radius));
        return new Thing(setUp, new Feature.Round(name, radius), shape, middle);
    }

    /** A large face with the direction that it looks to. */
    static Thing face(SetUp setUp, String name, Vec3 middle, Vec3 normal) {
        return new Thing(setUp, new Feature.Flat(name), new Shape.Face(middle, normal, 1000), middle);
    }

    /** A long pin about its middle, with the direction from there to its end. */
    static Thing bar(SetUp setUp, String name, Vec3 middle, Vec3 towardsEnd) {
        Thing bar = pin(setUp, name, middle, Axis.Z);
        return bar.at(middle, towardsEnd);
    }

    /** The same long pin elsewhere. */
    Thing at(Vec3 newMiddle, Vec3 towardsEnd) {
        double radius_mm = ((Shape.Pin) shape).radius_mm();
        Vec3 end = newMiddle.plus(towardsEnd.times(BAR_LENGTH_MM / 2));
        return new Thing(setUp, stated, new Shape.Pin(end, towardsEnd.times(-1), BAR_LENGTH_MM, radius_mm), newMiddle);
    }

    String name() {
        return stated.name();
    }

    Vec3 middle() {
        return middle;
    }

    Touch touch(Axis measured, Pose rotary, double time_s) {
        return touchAfterCreep(measured, rotary, time_s, setUp.crept_mm(time_s));
    }

    Touch touchAfterCreep(Axis measured, Pose rotary, double time_s, double crept_mm) {
        return setUp.touch(stated, shape, measured, setUp.linedUp(middle, rotary), time_s, crept_mm);
    }

    /** Where a travel axis stands when the middle is before the contact. */
    double travelToMiddle_mm(Axis travel, Pose rotary) {
        return setUp.linedUp(middle, rotary).of(travel);
    }

    Touch touchAtTravel(Axis measured, Axis travel, double travel_mm, Pose rotary, double time_s) {
        Pose lined = setUp.linedUp(middle, rotary).with(travel, travel_mm);
        return setUp.touch(stated, shape, measured, lined, time_s, setUp.crept_mm(time_s));
    }
}
