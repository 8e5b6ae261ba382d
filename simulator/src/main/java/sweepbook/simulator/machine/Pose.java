package sweepbook.simulator.machine;

/** Where every axis stands. */
public record Pose(double x_mm, double y_mm, double z_mm, double a_deg, double c_deg) {
    public static final Pose HOME = new Pose(0, 0, 0, 0, 0);

    /** Position of one axis, in millimetres or, for a rotary axis, degrees. */
    public double of(Axis axis) {
        return switch (axis) {
            case X -> x_mm;
            case Y -> y_mm;
            case Z -> z_mm;
            case A -> a_deg;
            case C -> c_deg;
        };
    }

    public Pose with(Axis axis, double position) {
        return switch (axis) {
            case X -> new Pose(position, y_mm, z_mm, a_deg, c_deg);
            case Y -> new Pose(x_mm, position, z_mm, a_deg, c_deg);
            case Z -> new Pose(x_mm, y_mm, position, a_deg, c_deg);
            case A -> new Pose(x_mm, y_mm, z_mm, position, c_deg);
            case C -> new Pose(x_mm, y_mm, z_mm, a_deg, position);
        };
    }

    Vec3 linear() {
        return new Vec3(x_mm, y_mm, z_mm);
    }
}
