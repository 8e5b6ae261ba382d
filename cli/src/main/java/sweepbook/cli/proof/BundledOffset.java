package sweepbook.cli.proof;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import sweepbook.analysis.offset.EntryConvention;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.cli.plan.MadeTouch;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Vec3;

/** An offset of a bundled plan, touched as the plan says, up to the entry of the controller's table. */
public enum BundledOffset implements Trial {
    SWIVEL_AXIS_TO_SPINDLE("swivel-axis-to-spindle", "swivel-axis-to-spindle") {
        @Override
        Scene scene(SetUp setUp) {
            return halfTurnOfTheSwivel(setUp, Axis.X);
        }
    },
    SWIVEL_AXIS_TO_SPINDLE_Y("swivel-axis-to-spindle", "swivel-axis-to-spindle-y") {
        @Override
        Scene scene(SetUp setUp) {
            return halfTurnOfTheSwivel(setUp, Axis.Y);
        }
    },
    SWIVEL_AXIS_TO_TILT_AXIS("swivel-axis-to-tilt-axis", "swivel-axis-to-tilt-axis") {
        @Override
        Scene scene(SetUp setUp) {
            // The end looks to where the head presses: plus Y at A = 90, minus Y at A = -90.
            double tilt_deg = 90 * setUp.direction.sign();
            Thing end = Thing.face(setUp, "end of the pin", place(setUp), DOWN);
            return new Scene(setUp.head.swivelToTilt().y())
                    .with(end.touch(Axis.Y, Pose.HOME.with(Axis.A, tilt_deg), 0))
                    .with(end.touch(Axis.Y, turned(-tilt_deg), 150));
        }
    },
    TILT_AXIS_TO_SPINDLE("tilt-axis-to-spindle", "tilt-axis-to-spindle") {
        @Override
        Scene scene(SetUp setUp) {
            return halfTurnOfTheTilt(setUp);
        }
    },
    TILT_AXIS_TO_GAUGE_FACE("tilt-axis-to-gauge-face", "tilt-axis-to-gauge-face") {
        @Override
        Scene scene(SetUp setUp) {
            return tiltAxisToFace(setUp);
        }
    },
    SPINDLE_TO_DRILL("spindle-to-drill", "spindle-to-drill") {
        @Override
        Scene scene(SetUp setUp) {
            return pinToPin(setUp, Axis.X);
        }
    },
    SPINDLE_TO_DRILL_Y("spindle-to-drill", "spindle-to-drill-y") {
        @Override
        Scene scene(SetUp setUp) {
            return pinToPin(setUp, Axis.Y);
        }
    },
    SPINDLE_TO_DRILL_Z("spindle-to-drill", "spindle-to-drill-z") {
        @Override
        Scene scene(SetUp setUp) {
            Thing spindle = Thing.face(setUp, "spindle nose", place(setUp), setUp.out(Axis.Z));
            Thing drill = Thing.face(setUp, "drill nose", place(setUp), setUp.out(Axis.Z));
            return new Scene(drill.middle().z() - spindle.middle().z())
                    .with(spindle.touch(Axis.Z, Pose.HOME, 0))
                    .with(drill.touch(Axis.Z, Pose.HOME, 150));
        }
    },
    TILT_AXIS_TO_DRILL("tilt-axis-to-drill", "tilt-axis-to-drill") {
        @Override
        Scene scene(SetUp setUp) {
            return halfTurnOfTheTilt(setUp);
        }
    },
    TILT_AXIS_TO_DRILL_Z("tilt-axis-to-drill", "tilt-axis-to-drill-z") {
        @Override
        Scene scene(SetUp setUp) {
            return tiltAxisToFace(setUp);
        }
    },
    ZERO_OF_THE_SWIVEL("zero-of-the-swivel", "zero-of-the-swivel") {
        @Override
        Scene scene(SetUp setUp) {
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
    },
    ZERO_OF_THE_TILT("zero-of-the-tilt", "zero-of-the-tilt") {
        @Override
        Scene scene(SetUp setUp) {
            double off_deg = setUp.between(-0.05, 0.05);
            Pose pose = Pose.HOME.with(Axis.A, off_deg);
            // The bar is neither straight in the spindle nor in its middle; half a turn of the spindle turns both over.
            Vec3 lean = new Vec3(setUp.between(-2e-4, 2e-4), setUp.between(-2e-4, 2e-4), 0);
            Vec3 out = new Vec3(setUp.between(-0.02, 0.02), setUp.between(-0.02, 0.02), 0);
            Vec3 middle = place(setUp);
            Thing before = Thing.bar(
                    setUp, "test bar", middle.plus(out), DOWN.plus(lean).unit());
            Thing after = before.at(middle.minus(out), DOWN.minus(lean).unit());
            return new Scene(-off_deg)
                    .with(before, Axis.Y, Axis.Z, 120, pose, 0)
                    .with(before, Axis.Y, Axis.Z, -120, pose, 60)
                    .with(after, Axis.Y, Axis.Z, -120, pose, 120)
                    .with(after, Axis.Y, Axis.Z, 120, pose, 180);
        }
    },
    TRAM("tram", "tram") {
        @Override
        Scene scene(SetUp setUp) {
            return swung(setUp, 0);
        }
    },
    TRAM_Y("tram", "tram-y") {
        @Override
        Scene scene(SetUp setUp) {
            return swung(setUp, 90);
        }
    };

    private static final Vec3 DOWN = new Vec3(0, 0, -1);
    private static final Map<String, PlannedOffset> PLANNED = new ConcurrentHashMap<>();

    private final String plan;
    private final String offset;

    BundledOffset(String plan, String offset) {
        this.plan = plan;
        this.offset = offset;
    }

    /** The touches of an offset and what they should give. */
    static final class Scene {
        private final double truth;
        private final List<Touch> touches = new ArrayList<>();
        private final List<OptionalDouble> travels_mm = new ArrayList<>();

        Scene(double truth) {
            this.truth = truth;
        }

        Scene with(Touch touch) {
            touches.add(touch);
            travels_mm.add(OptionalDouble.empty());
            return this;
        }

        /** A touch so far along a travel from where the middle of the thing is before the contact. */
        Scene with(Thing thing, Axis measured, Axis travel, double along_mm, Pose rotary, double time_s) {
            double travel_mm = thing.travelToMiddle_mm(travel, rotary) + along_mm;
            touches.add(thing.touchAtTravel(measured, travel, travel_mm, rotary, time_s));
            travels_mm.add(OptionalDouble.of(travel_mm));
            return this;
        }
    }

    @Override
    public String words() {
        return "plan " + plan + (plan.equals(offset) ? "" : ": " + offset);
    }

    @Override
    public Outcome of(long seed) {
        SetUp setUp = new SetUp(seed, true);
        Scene scene = scene(setUp);
        PlannedOffset planned = PLANNED.computeIfAbsent(offset, name -> planned());
        List<MadeTouch> made = new ArrayList<>();
        for (int i = 0; i < planned.touches().size(); i++) {
            made.add(new MadeTouch(i, planned.touches().get(i), scene.touches.get(i), scene.travels_mm.get(i)));
        }
        Budget measured = planned.method().of(made).result().apply(setUp.conditions);
        EntryConvention convention = planned.entry().convention();
        BigDecimal before = planned.entry().before();
        return new Outcome(
                convention.change(before, measured).entry().combined(),
                convention.unrounded(before, new Budget(scene.truth, List.of())).value());
    }

    private PlannedOffset planned() {
        try {
            return PlanFile.parse(plan, Plans.text(plan)).offsets().stream()
                    .filter(planned -> planned.name().equals(offset))
                    .findFirst()
                    .orElseThrow();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    abstract Scene scene(SetUp setUp);

    private static Vec3 place(SetUp setUp) {
        return new Vec3(setUp.between(-60, 60), setUp.between(-2, 2), setUp.between(-260, -180));
    }

    private static Pose turned(double tilt_deg) {
        return Pose.HOME.with(Axis.C, 180).with(Axis.A, tilt_deg);
    }

    private static Scene halfTurnOfTheSwivel(SetUp setUp, Axis axis) {
        Thing pin = Thing.pin(setUp, "spindle pin", place(setUp), Axis.Z);
        return new Scene(setUp.head.fromSwivelAxis(pin.middle()).along(axis))
                .with(pin.touch(axis, Pose.HOME, 0))
                .with(pin.touch(axis, Pose.HOME.with(Axis.C, 180), 150));
    }

    private static Scene halfTurnOfTheTilt(SetUp setUp) {
        Thing pin = Thing.pin(setUp, "pin", place(setUp), Axis.Z);
        return new Scene(pin.middle().y())
                .with(pin.touch(Axis.Z, Pose.HOME.with(Axis.A, 90), 0))
                .with(pin.touch(Axis.Z, turned(-90), 150));
    }

    private static Scene tiltAxisToFace(SetUp setUp) {
        Thing pin = Thing.pin(setUp, "pin", place(setUp), Axis.Z);
        Thing face = Thing.face(setUp, "face", place(setUp), setUp.out(Axis.Z));
        return new Scene(face.middle().z())
                .with(pin.touch(Axis.Z, Pose.HOME.with(Axis.A, 90), 0))
                .with(face.touch(Axis.Z, Pose.HOME, 100))
                .with(pin.touch(Axis.Z, turned(-90), 200));
    }

    private static Scene pinToPin(SetUp setUp, Axis axis) {
        Thing spindle = Thing.pin(setUp, "spindle pin", place(setUp), Axis.Z);
        Thing drill = Thing.pin(setUp, "drill pin", place(setUp), Axis.Z);
        return new Scene(drill.middle().along(axis) - spindle.middle().along(axis))
                .with(spindle.touch(axis, Pose.HOME, 0))
                .with(drill.touch(axis, Pose.HOME, 150));
    }

    private static Scene swung(SetUp setUp, double towards_deg) {
        SwungContact contact = new SwungContact(setUp);
        Scene scene = new Scene(contact.lean_deg(towards_deg));
        for (int step = 0; step < 4; step++) {
            scene.with(contact.touch(90.0 * step, 60.0 * step));
        }
        return scene;
    }
}
