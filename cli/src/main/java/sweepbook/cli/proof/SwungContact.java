package sweepbook.cli.proof;

import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Touch;
import sweepbook.simulator.machine.Shape;
import sweepbook.simulator.machine.Vec3;

/** An indicator that a leaning spindle swings over the table, its plunger along the spindle. */
final class SwungContact {
    /** As the bundled plan has it. */
    private static final double CIRCLE_MM = 150;

    private static final Shape TABLE = new Shape.Face(Vec3.ORIGIN, new Vec3(0, 0, 1), 1000);

    private final SetUp setUp;
    private final Vec3 up;
    private final Vec3 middle;
    private final double shown_mm;

    SwungContact(SetUp setUp) {
        this.setUp = setUp;
        this.up = new Vec3(setUp.between(-1e-3, 1e-3), setUp.between(-1e-3, 1e-3), 1).unit();
        this.middle = new Vec3(0, 0, setUp.trueContact_mm() - setUp.between(0.3, 0.6));
        this.shown_mm = setUp.between(100, 200);
    }

    /** How far the spindle's upper end leans towards a direction from plus X to plus Y. */
    double lean_deg(double towards_deg) {
        double towards_rad = Math.toRadians(towards_deg);
        return Math.toDegrees(Math.atan((up.x() * Math.cos(towards_rad) + up.y() * Math.sin(towards_rad)) / up.z()));
    }

    Touch touch(double angle_deg, double time_s) {
        Vec3 arm = new Vec3(Math.cos(Math.toRadians(angle_deg)), Math.sin(Math.toRadians(angle_deg)), 0)
                .across(up)
                .unit()
                .times(CIRCLE_MM);
        double pushed_mm = TABLE.way_mm(middle.plus(arm), setUp.trueContact_mm(), up) + setUp.crept_mm(time_s);
        return setUp.reading(new Feature.Flat("table"), shown_mm, pushed_mm, time_s);
    }
}
