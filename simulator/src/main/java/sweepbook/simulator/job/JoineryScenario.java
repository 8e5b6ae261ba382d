package sweepbook.simulator.job;

import java.util.List;
import java.util.Random;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.simulator.fault.Drift;
import sweepbook.simulator.indicator.Contact;
import sweepbook.simulator.indicator.Display;
import sweepbook.simulator.indicator.IndicatorSettings;
import sweepbook.simulator.job.SoughtOffset.Target;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Carrier;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.machine.Head;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Shape.Face;
import sweepbook.simulator.machine.Shape.Pin;
import sweepbook.simulator.machine.Vec3;
import sweepbook.simulator.technician.Hand;

/**
 * Invented: a five-axis gantry router in a joinery. Its head swivels (C) and tilts (A) and carries a milling spindle and, beside
 * it, a drill unit that drops down. The controller's table of lengths is off by some tenths of a millimetre at most; by how much
 * is drawn from the seed.
 */
public final class JoineryScenario {
    public static final String SWIVEL_TO_SPINDLE = "swivel-axis-to-spindle";
    public static final String SWIVEL_TO_SPINDLE_Y = "swivel-axis-to-spindle-y";
    public static final String SPINDLE_TO_DRILL = "spindle-to-drill";
    public static final String SPINDLE_TO_DRILL_Z = "spindle-to-drill-z";

    public static final String SWIVEL_TO_TILT = "swivel-axis-to-tilt-axis";
    public static final String TILT_TO_SPINDLE = "tilt-axis-to-spindle";
    public static final String TILT_TO_FACE = "tilt-axis-to-gauge-face";

    public static final String SPINDLE_PIN = "spindle pin";
    public static final String DRILL_PIN = "drill pin";
    public static final String SPINDLE_NOSE = "spindle nose";
    public static final String DRILL_NOSE = "drill nose";

    public static final String END_OF_PIN = "end of the pin";
    public static final String GAUGE_FACE = "gauge face";

    /** Radii as the shop knows them; the true ones differ by a few tenths of a micrometre. */
    public static final double SPINDLE_PIN_MM = 12.5;

    public static final double DRILL_PIN_MM = 6;
    public static final double CONTACT_MM = 1.5;

    /** The lengths as they stand in the controller's table. */
    private static final double SPINDLE_X_MM = 86.42;

    private static final double SPINDLE_Y_MM = -0.35;
    private static final double DRILL_X_MM = 124.8;
    private static final double DRILL_Z_MM = -38.25;

    private static final double TILT_Y_MM = 0.12;
    private static final double TILT_TO_SPINDLE_Y_MM = -0.47;
    private static final double TILT_TO_FACE_MM = 235;

    private static final Vec3 STAND = new Vec3(1310, 640, 215);
    private static final double PIN_LENGTH_MM = 60;

    private final Random random;
    private final LengthUnit unit;

    private JoineryScenario(long seed, LengthUnit unit) {
        this.random = new Random(seed * 0x9E3779B97F4A7C15L);
        this.unit = unit;
    }

    /** The job with machine and indicator in millimetres. */
    public static VirtualJob of(long seed) {
        return new JoineryScenario(seed, LengthUnit.MM).job();
    }

    /** The job with machine and indicator in inches. */
    public static VirtualJob inInches(long seed) {
        return new JoineryScenario(seed, LengthUnit.IN).job();
    }

    /** What is measured by tilting the head, in millimetres, on a machine of its own. */
    public static VirtualJob tilting(long seed) {
        return new JoineryScenario(seed, LengthUnit.MM).tiltingJob();
    }

    private VirtualJob tiltingJob() {
        Head head = new Head(new Vec3(between(20, 30), TILT_Y_MM + tableError_mm(), between(-180, -160)));
        double spindleY_mm = TILT_TO_SPINDLE_Y_MM + tableError_mm();
        double faceZ_mm = -TILT_TO_FACE_MM + tableError_mm();
        Vec3 nose = new Vec3(between(55, 65), spindleY_mm, faceZ_mm);
        Vec3 end = nose.plus(new Vec3(0, 0, -PIN_LENGTH_MM));
        List<Feature> features = List.of(
                pin(SPINDLE_PIN, head, nose, SPINDLE_PIN_MM + pinError_mm()),
                new Feature(END_OF_PIN, head, new Face(end, new Vec3(0, 0, -1), SPINDLE_PIN_MM)),
                face(GAUGE_FACE, head, nose.plus(new Vec3(0, 45, 0))));
        List<SoughtOffset> offsets = List.of(
                new SoughtOffset(
                        SWIVEL_TO_TILT,
                        Axis.Y,
                        1,
                        Axis.X,
                        contact(Axis.Y, 1),
                        List.of(new Target(END_OF_PIN, 0, 90), new Target(END_OF_PIN, 180, -90)),
                        TILT_Y_MM,
                        head.swivelToTilt().y()),
                new SoughtOffset(
                        TILT_TO_SPINDLE,
                        Axis.Z,
                        -1,
                        Axis.X,
                        contact(Axis.Z, -1),
                        List.of(new Target(SPINDLE_PIN, 0, 90), new Target(SPINDLE_PIN, 180, -90)),
                        TILT_TO_SPINDLE_Y_MM,
                        spindleY_mm),
                new SoughtOffset(
                        TILT_TO_FACE,
                        Axis.Z,
                        -1,
                        Axis.X,
                        contact(Axis.Z, -1),
                        List.of(
                                new Target(SPINDLE_PIN, 0, 90),
                                new Target(GAUGE_FACE, 0, 0),
                                new Target(SPINDLE_PIN, 180, -90)),
                        TILT_TO_FACE_MM,
                        faceZ_mm));
        return new VirtualJob(workPlace(features), offsets, new Pose(900, 300, 700, 0, 0), random);
    }

    private VirtualJob job() {
        double spindleX_mm = SPINDLE_X_MM + tableError_mm();
        double spindleY_mm = SPINDLE_Y_MM + tableError_mm();
        double drillX_mm = DRILL_X_MM + tableError_mm();
        double drillZ_mm = DRILL_Z_MM + tableError_mm();
        // What the tilt axis takes of the way does not matter at A = 0.
        Head head = new Head(new Vec3(between(20, 30), between(-0.5, 0.5), between(-180, -160)));
        Vec3 nose = new Vec3(
                spindleX_mm - head.swivelToTilt().x(),
                spindleY_mm - head.swivelToTilt().y(),
                between(-240, -230));
        Vec3 drillNose = nose.plus(new Vec3(drillX_mm, between(-1, 1), drillZ_mm));
        List<Feature> features = List.of(
                pin(SPINDLE_PIN, head, nose, SPINDLE_PIN_MM + pinError_mm()),
                pin(DRILL_PIN, head, drillNose, DRILL_PIN_MM + pinError_mm()),
                face(SPINDLE_NOSE, head, nose.plus(new Vec3(0, 45, 0))),
                face(DRILL_NOSE, head, drillNose.plus(new Vec3(0, 45, 0))));
        List<SoughtOffset> offsets = List.of(
                reversal(
                        SWIVEL_TO_SPINDLE,
                        Axis.X,
                        Axis.Y,
                        SPINDLE_X_MM,
                        head.fromSwivelAxis(nose).x()),
                reversal(
                        SWIVEL_TO_SPINDLE_Y,
                        Axis.Y,
                        Axis.X,
                        SPINDLE_Y_MM,
                        head.fromSwivelAxis(nose).y()),
                new SoughtOffset(
                        SPINDLE_TO_DRILL,
                        Axis.X,
                        -1,
                        Axis.Y,
                        contact(Axis.X, -1),
                        List.of(new Target(SPINDLE_PIN, 0), new Target(DRILL_PIN, 0)),
                        DRILL_X_MM,
                        drillX_mm),
                new SoughtOffset(
                        SPINDLE_TO_DRILL_Z,
                        Axis.Z,
                        -1,
                        Axis.Y,
                        contact(Axis.Z, -1),
                        List.of(new Target(SPINDLE_NOSE, 0), new Target(DRILL_NOSE, 0)),
                        DRILL_Z_MM,
                        drillZ_mm));
        return new VirtualJob(workPlace(features), offsets, new Pose(900, 300, 700, 0, 0), random);
    }

    private WorkPlace workPlace(List<Feature> features) {
        boolean metric = unit == LengthUnit.MM;
        double q_mm = metric ? 0.001 : unit.toMm(0.00005);
        IndicatorSettings indicator = new IndicatorSettings(
                new Display(unit, metric ? 1000 : 20000), 1, 0.8, q_mm * between(0.3, 0.8), 0, 0.04);
        return new WorkPlace(
                unit,
                metric ? 3 : 4,
                unit.toMm(metric ? 0.01 : 0.001),
                between(0.002, 0.008),
                features,
                indicator,
                // A hundredth of a millimetre in an hour, either way, as a shop warms or cools.
                List.of(new Drift(0, between(-0.01, 0.01) / 3600)),
                new Hand(0.4, 0.12, 0.1, 0.05));
    }

    private SoughtOffset reversal(String name, Axis axis, Axis swept, double entry_mm, double truth_mm) {
        List<Target> touches = List.of(new Target(SPINDLE_PIN, 0), new Target(SPINDLE_PIN, 180));
        return new SoughtOffset(name, axis, 1, swept, contact(axis, 1), touches, entry_mm, truth_mm);
    }

    /** An indicator on the table, its plunger along the axis as well as a person sets it by eye. */
    private Contact contact(Axis axis, int direction) {
        Vec3 tilt = new Vec3(between(-0.01, 0.01), between(-0.01, 0.01), between(-0.01, 0.01));
        Vec3 pressing = Vec3.on(axis, direction).plus(tilt).unit();
        return new Contact(Carrier.TABLE, STAND, pressing, CONTACT_MM, 10);
    }

    /** A pin in the chuck: its end 60 mm below the nose. */
    private static Feature pin(String name, Head head, Vec3 nose, double radius_mm) {
        Vec3 end = nose.plus(new Vec3(0, 0, -PIN_LENGTH_MM));
        return new Feature(name, head, new Pin(end, new Vec3(0, 0, 1), PIN_LENGTH_MM, radius_mm));
    }

    /** A ground face beside the chuck, looking down. */
    private static Feature face(String name, Head head, Vec3 middle) {
        return new Feature(name, head, new Face(middle, new Vec3(0, 0, -1), 20));
    }

    /** What a crash or a new bearing leaves: a few hundredths to a few tenths, either way. */
    private double tableError_mm() {
        return (random.nextBoolean() ? 1 : -1) * between(0.03, 0.3);
    }

    private double pinError_mm() {
        return 0.0004 * random.nextGaussian();
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }
}
