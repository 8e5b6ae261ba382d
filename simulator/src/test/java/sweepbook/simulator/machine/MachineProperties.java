package sweepbook.simulator.machine;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import sweepbook.simulator.indicator.Contact;
import sweepbook.simulator.machine.Shape.Pin;

/** Laws of the virtual machine's geometry. */
class MachineProperties {
    private static final Vec3 UP = new Vec3(0, 0, 1);

    /** Law: half a turn of the swivel mirrors the place at the axis, and another half turn undoes it, to the bit. */
    @Property(tries = 200)
    void halfATurnTwiceIsNoTurn(@ForAll("places") Vec3 held, @ForAll("places") Vec3 swivelToTilt) {
        Head head = new Head(swivelToTilt);
        Vec3 once = held.aboutZ(180);
        // Adding zero makes a zero of either sign one.
        assertEquals(-held.x() + 0.0, once.x() + 0.0);
        assertEquals(held.plus(Vec3.ORIGIN), once.aboutZ(180).plus(Vec3.ORIGIN));
        Vec3 atZero = head.place(held, Pose.HOME);
        Vec3 turned = head.place(held, Pose.HOME.with(Axis.C, 180));
        assertEquals(head.fromSwivelAxis(held).x(), (atZero.x() - turned.x()) / 2 + 0.0);
        assertEquals(head.fromSwivelAxis(held).y(), (atZero.y() - turned.y()) / 2 + 0.0);
        assertEquals(atZero.z(), turned.z());
    }

    /** Law: the head is rigid. */
    @Property(tries = 200)
    void distancesInTheHeadDoNotChange(
            @ForAll("places") Vec3 one,
            @ForAll("places") Vec3 other,
            @ForAll @DoubleRange(min = -110, max = 110) double tilt_deg,
            @ForAll @DoubleRange(min = -360, max = 360) double swivel_deg) {
        Head head = new Head(new Vec3(25, -3, -170));
        Pose pose = new Pose(812, -40, 233, tilt_deg, swivel_deg);
        double distance_mm =
                head.place(one, pose).minus(head.place(other, pose)).norm();
        assertEquals(one.minus(other).norm(), distance_mm, 1e-9);
        assertEquals(one.norm(), head.direction(one, pose).norm(), 1e-9);
    }

    /**
     * Law: for every combination of axis, direction of pressing, and which side stands still, two touches give the true distance
     * of the pins' axes. The indicator stands: offset = -(P2 - P1) + a (s2 - s1) - a (R2 - R1). The machine carries it:
     * offset = (P2 - P1) - a (s2 - s1) + a (R2 - R1). P is the position and s the press.
     */
    @Property(tries = 500)
    void twoTouchesGiveTheDistanceForEverySign(
            @ForAll boolean alongX,
            @ForAll boolean forward,
            @ForAll boolean onTable,
            @ForAll @DoubleRange(min = -300, max = 300) double distance_mm,
            @ForAll @DoubleRange(min = 2, max = 40) double radius1_mm,
            @ForAll @DoubleRange(min = 2, max = 40) double radius2_mm,
            @ForAll @DoubleRange(min = 0.1, max = 3) double press1_mm,
            @ForAll @DoubleRange(min = 0.1, max = 3) double press2_mm) {
        Axis axis = alongX ? Axis.X : Axis.Y;
        int a = forward ? 1 : -1;
        Head head = new Head(new Vec3(3, -2, 5));
        Carrier ofPins = onTable ? head : Carrier.TABLE;
        Carrier ofContact = onTable ? Carrier.TABLE : head;
        // The contact is pushed in the machine's direction where it stands, and against it where the machine carries
        // it.
        int pushed = onTable ? a : -a;
        Contact contact = new Contact(ofContact, new Vec3(40, 30, 0), Vec3.on(axis, pushed), 1.5, 5);
        Pin first = new Pin(new Vec3(7, -4, -50), UP, 100, radius1_mm);
        Pin second = new Pin(first.end().plus(Vec3.on(axis, distance_mm)), UP, 100, radius2_mm);

        double p1_mm = positionAtPress_mm(contact, new Feature("first", ofPins, first), axis, a, press1_mm);
        double p2_mm = positionAtPress_mm(contact, new Feature("second", ofPins, second), axis, a, press2_mm);

        double machine_mm = (onTable ? -1 : 1) * (p2_mm - p1_mm);
        double rest_mm = (onTable ? a : -a) * ((press2_mm - press1_mm) - (radius2_mm - radius1_mm));
        assertEquals(distance_mm, machine_mm + rest_mm, 1e-9);
    }

    /** Moves the axis by search until the feature, on its crest, presses as wanted: no formula of the offset is used. */
    private static double positionAtPress_mm(Contact contact, Feature feature, Axis axis, int a, double press_mm) {
        Axis across = axis == Axis.X ? Axis.Y : Axis.X;
        Vec3 pin = ((Pin) feature.at(Pose.HOME)).end();
        Vec3 ball = contact.carrier().place(contact.ball(), Pose.HOME);
        int machineCarriesPin = contact.carrier() == Carrier.TABLE ? 1 : -1;
        double crest = machineCarriesPin * (ball.along(across) - pin.along(across));
        Pose onCrest = Pose.HOME.with(across, crest);
        // Far off the plunger is free; from there towards a it is pressed more and more.
        double free = machineCarriesPin * (ball.along(axis) - pin.along(axis)) - a * 50;
        double far = a * 100;
        double low = 0;
        double high = firstPressed(contact, feature, onCrest, axis, free, far);
        for (int i = 0; i < 100; i++) {
            double middle = (low + high) / 2;
            double pressed_mm = contact.press_mm(feature, onCrest.with(axis, free + middle * far));
            if (pressed_mm < press_mm && middle < high) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return free + high * far;
    }

    /** A share of the way at which the press is beyond any that is asked for. */
    private static double firstPressed(
            Contact contact, Feature feature, Pose pose, Axis axis, double free, double far) {
        for (double share = 0; share < 1; share += 0.001) {
            if (contact.press_mm(feature, pose.with(axis, free + share * far)) > 4) {
                return share;
            }
        }
        throw new AssertionError("the feature never comes against the contact");
    }

    /** Law: backlash shows as a lag of the slide by its half, on either side, and as nothing after going on the same way. */
    @Property(tries = 100)
    void theSlideLagsByHalfTheBacklash(@ForAll @DoubleRange(min = 0, max = 0.1) double backlash_mm) {
        VirtualMachine machine = new VirtualMachine(Pose.HOME, 0.001, backlash_mm);
        machine.move(Axis.X, steady(10));
        assertEquals(10 - backlash_mm / 2, machine.pose().x_mm(), 1e-9);
        machine.move(Axis.X, steady(5));
        assertEquals(15 - backlash_mm / 2, machine.pose().x_mm(), 1e-9);
        machine.move(Axis.X, steady(-3));
        assertEquals(12 + backlash_mm / 2, machine.pose().x_mm(), 1e-9);
        assertEquals(12, machine.shown(Axis.X), 1e-9);
        assertTrue(Math.abs(machine.at(0.5).x_mm() - 5 + backlash_mm / 2) < 1e-9, "half way in the first move");
    }

    private static Course steady(double travel) {
        return new Course() {
            @Override
            public double duration_s() {
                return 1;
            }

            @Override
            public double travel(double since_s) {
                return travel * since_s;
            }
        };
    }

    @Provide
    Arbitrary<Vec3> places() {
        Arbitrary<Double> length = Arbitraries.doubles().between(-400, 400).ofScale(4);
        return Combinators.combine(length, length, length).as(Vec3::new);
    }
}
