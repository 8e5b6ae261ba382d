package sweepbook.cli.proof;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import sweepbook.analysis.offset.Alignment;
import sweepbook.analysis.offset.BracketedPair;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Reversal;
import sweepbook.analysis.offset.Surroundings;
import sweepbook.analysis.offset.Temperature;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.offset.TouchNetwork;
import sweepbook.analysis.offset.TouchPair;
import sweepbook.analysis.offset.TurnedTouches;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.plan.MadeTouch;
import sweepbook.cli.plan.ScaleCheckMethod;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Vec3;

/** A kind of measurement, made on a set-up. */
public enum Kind implements Trial {
    PIN_TO_PIN("pin to pin") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing one = somePin(setUp, "one");
            Thing two = somePin(setUp, "two");
            TouchPair pair = new TouchPair(one.touch(Axis.X, Pose.HOME, 0), two.touch(Axis.X, Pose.HOME, 200));
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(one, two));
        }
    },
    FACE_TO_PIN("face to pin") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing face = Thing.face(setUp, "face", somePlace(setUp), setUp.out(Axis.X));
            Thing pin = somePin(setUp, "pin");
            TouchPair pair = new TouchPair(face.touch(Axis.X, Pose.HOME, 0), pin.touch(Axis.X, Pose.HOME, 200));
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(face, pin));
        }
    },
    FACE_TO_FACE("face to face") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing one = Thing.face(setUp, "one", somePlace(setUp), setUp.out(Axis.X));
            Thing two = Thing.face(setUp, "two", somePlace(setUp), setUp.out(Axis.X));
            TouchPair pair = new TouchPair(one.touch(Axis.X, Pose.HOME, 0), two.touch(Axis.X, Pose.HOME, 200));
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(one, two));
        }
    },
    OPPOSITE_SIDES("pin to pin, from opposite sides") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing one = somePin(setUp, "one");
            Thing two = somePin(setUp.fromTheOtherSide(), "two");
            TouchPair pair = new TouchPair(one.touch(Axis.X, Pose.HOME, 0), two.touch(Axis.X, Pose.HOME, 200));
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(one, two));
        }
    },
    LEVER("pin to pin, lever at an angle") {
        @Override
        Outcome measure(SetUp setUp) {
            Estimate angle = new Estimate(setUp.between(5, 40), setUp.between(0, 2), Double.POSITIVE_INFINITY);
            LeveredIndicator lever = new LeveredIndicator(setUp, angle);
            Thing one = somePin(setUp, "one");
            Thing two = somePin(setUp, "two");
            TouchPair pair = new TouchPair(
                    lever.read(one.touch(Axis.X, Pose.HOME, 0), 0),
                    lever.read(two.touch(Axis.X, Pose.HOME, 200), setUp.between(-0.2, 0.2)));
            return new Outcome(pair.offset(lever.conditions()).combined(), apart(one, two));
        }
    },
    TEMPERATURE("pin to pin, off 20 degrees C") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing one = somePin(setUp, "one");
            Thing two = somePin(setUp, "two");
            TouchPair pair = new TouchPair(one.touch(Axis.X, Pose.HOME, 0), two.touch(Axis.X, Pose.HOME, 200));
            double inf = Double.POSITIVE_INFINITY;
            Temperature stated = new Temperature(
                    new Estimate(setUp.between(-8, 12), 0.5, inf),
                    new Estimate(11.5e-6, 0.6e-6, inf),
                    new Estimate(setUp.between(-3e-6, 13e-6), 1e-6, inf),
                    new Estimate(setUp.between(-2, 2), 0.3, inf));
            double strain = setUp.near(stated.expansionDifference_per_K()) * setUp.near(stated.excess_K())
                    + setUp.near(stated.scaleExpansion_per_K()) * setUp.near(stated.temperatureDifference_K());
            TouchConditions conditions = new TouchConditions(
                    setUp.conditions.indicator(),
                    setUp.conditions.machine(),
                    new Surroundings(setUp.conditions.surroundings().drift_mm_per_s(), Optional.of(stated)));
            return new Outcome(pair.offset(conditions).combined(), apart(one, two) * (1 - strain));
        }
    },
    SCALE_CHECK("scale check over 0.8 mm, in and out") {
        @Override
        Outcome measure(SetUp setUp) {
            Feature face = new Feature.Flat("face");
            PlannedTouch planned =
                    new PlannedTouch(face, Optional.empty(), Optional.empty(), Optional.empty(), "", "none");
            double step_mm = setUp.conditions.machine().readoutStep_mm();
            List<MadeTouch> steps = new ArrayList<>();
            for (int i = 0; i <= 16; i++) {
                double shown_mm = 0.1 * (i <= 8 ? i : 16 - i);
                double depth_mm = shown_mm + setUp.between(-step_mm / 2, step_mm / 2);
                Touch touch = setUp.reading(face, setUp.direction.sign() * shown_mm, depth_mm, 20 * i);
                steps.add(new MadeTouch(i, planned, touch, OptionalDouble.empty()));
            }
            Estimate off = new ScaleCheckMethod()
                    .of(steps)
                    .result()
                    .apply(setUp.conditions)
                    .combined();
            return new Outcome(off, 0.8 * (1 / setUp.trueScale() - 1));
        }
    },
    REPEATED("pin to pin, three times") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing one = somePin(setUp, "one");
            Thing two = somePin(setUp, "two");
            List<Touch> first = new ArrayList<>();
            List<Touch> second = new ArrayList<>();
            for (int i = 0; i < 3; i++) {
                first.add(one.touch(Axis.X, Pose.HOME, 200 * i));
                second.add(two.touch(Axis.X, Pose.HOME, 200 * i + 100));
            }
            TouchPair pair = new TouchPair(first, second);
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(one, two));
        }
    },
    OUT_AND_BACK("pin to pin and back, drifting") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing one = somePin(setUp, "one");
            Thing two = somePin(setUp, "two");
            double whole_mm = setUp.between(-0.008, 0.008);
            double middle_mm = whole_mm * setUp.random.nextDouble(); // one way, but not steadily
            BracketedPair pair = new BracketedPair(
                    one.touchAfterCreep(Axis.X, Pose.HOME, 0, 0),
                    two.touchAfterCreep(Axis.X, Pose.HOME, 90, middle_mm),
                    one.touchAfterCreep(Axis.X, Pose.HOME, 180, whole_mm));
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(one, two));
        }
    },
    HALF_TURN("half a turn of the swivel") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing pin = somePin(setUp, "pin");
            Reversal reversal =
                    new Reversal(pin.touch(Axis.X, Pose.HOME, 0), pin.touch(Axis.X, Pose.HOME.with(Axis.C, 180), 120));
            return new Outcome(
                    reversal.eccentricity(setUp.conditions).combined(),
                    setUp.head.fromSwivelAxis(pin.middle()).x());
        }

        @Override
        boolean needsTheHeadToCarryFeatures() {
            return true;
        }
    },
    STEPS_OF_THE_SWIVEL("six steps of the swivel") {
        @Override
        Outcome measure(SetUp setUp) {
            Thing pin = somePin(setUp, "pin");
            TurnedTouches turned = turned(pin, Axis.X, Axis.C, 0, 60, 6);
            return new Outcome(
                    turned.eccentricityAcross(setUp.conditions).combined(),
                    setUp.head.fromSwivelAxis(pin.middle()).y());
        }

        @Override
        boolean needsTheHeadToCarryFeatures() {
            return true;
        }
    },
    PART_OF_THE_TILT("half a turn of the tilt in five steps") {
        @Override
        Outcome measure(SetUp setUp) {
            Vec3 middle = new Vec3(setUp.between(-30, 30), setUp.between(-5, 5), setUp.between(-220, -180));
            Thing pin = Thing.pin(setUp, "pin", middle, Axis.X);
            TurnedTouches turned = turned(pin, Axis.Y, Axis.A, -90, 45, 5);
            return new Outcome(turned.eccentricityAcross(setUp.conditions).combined(), middle.z());
        }

        @Override
        boolean needsTheHeadToCarryFeatures() {
            return true;
        }
    },
    ALIGNMENT("lean of a face over a travel, in degrees") {
        @Override
        Outcome measure(SetUp setUp) {
            double lean_deg = setUp.between(-0.05, 0.05);
            return new Outcome(
                    alongAFace(setUp, lean_deg).lean_deg(setUp.conditions).combined(), lean_deg);
        }
    },
    PARALLELISM("face out of a travel, over 1000 mm") {
        @Override
        Outcome measure(SetUp setUp) {
            double lean_deg = setUp.between(-0.05, 0.05);
            double sense = setUp.carriesFeatures() ? -1 : 1;
            return new Outcome(
                    alongAFace(setUp, lean_deg).over(1000, setUp.conditions).combined(),
                    sense * 1000 * Math.tan(Math.toRadians(lean_deg)));
        }
    },
    NETWORK("network of nine touches") {
        @Override
        Outcome measure(SetUp setUp) {
            NetworkJob job = new NetworkJob(setUp);
            Estimate offset = new TouchNetwork(job.ties(), setUp.conditions)
                    .offset(job.things().get(0).name(), job.things().get(2).name())
                    .asOptional()
                    .orElseThrow()
                    .combined();
            return new Outcome(offset, apart(job.things().get(0), job.things().get(2)));
        }
    };

    private final String words;

    Kind(String words) {
        this.words = words;
    }

    @Override
    public String words() {
        return words;
    }

    @Override
    public Outcome of(long seed) {
        SetUp setUp = new SetUp(seed, needsTheHeadToCarryFeatures());
        return measure(setUp);
    }

    abstract Outcome measure(SetUp setUp);

    /** Rotary axes of the head turn what the head carries. */
    boolean needsTheHeadToCarryFeatures() {
        return false;
    }

    static Thing somePin(SetUp setUp, String name) {
        return Thing.pin(setUp, name, somePlace(setUp), Axis.Z);
    }

    private static Vec3 somePlace(SetUp setUp) {
        return new Vec3(setUp.between(-60, 60), setUp.between(-60, 60), setUp.between(-300, -200));
    }

    private static double apart(Thing one, Thing two) {
        return two.middle().x() - one.middle().x();
    }

    private static Alignment alongAFace(SetUp setUp, double lean_deg) {
        Thing face =
                Thing.face(setUp, "face", somePlace(setUp), setUp.out(Axis.Y).aboutZ(lean_deg));
        List<Alignment.Station> stations = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            double travel_mm = face.travelToMiddle_mm(Axis.X, Pose.HOME) + 50 * i;
            stations.add(new Alignment.Station(
                    travel_mm, "along", face.touchAtTravel(Axis.Y, Axis.X, travel_mm, Pose.HOME, 40 * i)));
        }
        return new Alignment(stations);
    }

    private static TurnedTouches turned(
            Thing pin, Axis measured, Axis rotary, double from_deg, double step_deg, int steps) {
        List<TurnedTouches.AtAngle> touches = new ArrayList<>();
        for (int i = 0; i < steps; i++) {
            double angle_deg = from_deg + i * step_deg;
            touches.add(new TurnedTouches.AtAngle(
                    angle_deg, pin.touch(measured, Pose.HOME.with(rotary, angle_deg), 60 * i)));
        }
        return new TurnedTouches(touches);
    }
}
