package sweepbook.cli.proof;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.offset.Alignment;
import sweepbook.analysis.offset.BracketedPair;
import sweepbook.analysis.offset.Reversal;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchNetwork;
import sweepbook.analysis.offset.TouchPair;
import sweepbook.analysis.offset.TurnedTouches;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Vec3;

/** A kind of measurement, made on a set-up. */
public enum Kind {
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
            Thing face = Thing.face(setUp, "face", somePlace(setUp), Axis.X, 0);
            Thing pin = somePin(setUp, "pin");
            TouchPair pair = new TouchPair(face.touch(Axis.X, Pose.HOME, 0), pin.touch(Axis.X, Pose.HOME, 200));
            return new Outcome(pair.offset(setUp.conditions).combined(), apart(face, pin));
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
            Thing face = Thing.face(setUp, "face", somePlace(setUp), Axis.Y, lean_deg);
            List<Alignment.Station> stations = new ArrayList<>();
            for (int i = 0; i < 5; i++) {
                double travel_mm = face.travelToMiddle_mm(Axis.X) + 50 * i;
                stations.add(new Alignment.Station(
                        travel_mm, "along", face.touchAtTravel(Axis.Y, Axis.X, travel_mm, 40 * i)));
            }
            return new Outcome(
                    new Alignment(stations).lean_deg(setUp.conditions).combined(), lean_deg);
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

    /**
     * @param found what the measurement says
     * @param truth in the same unit
     */
    public record Outcome(Estimate found, double truth) {
        public boolean isCovered() {
            return Math.abs(found.value() - truth) <= found.u95();
        }
    }

    private final String words;

    Kind(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    /** Makes the measurement on the set-up of a seed. */
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
