package sweepbook.simulator.machine;

/** A place (in millimetres) or a direction (without unit) in the machine's right-handed frame X Y Z (ISO 841). */
public record Vec3(double x, double y, double z) {
    public static final Vec3 ORIGIN = new Vec3(0, 0, 0);

    public Vec3 plus(Vec3 other) {
        return new Vec3(x + other.x, y + other.y, z + other.z);
    }

    public Vec3 minus(Vec3 other) {
        return new Vec3(x - other.x, y - other.y, z - other.z);
    }

    public Vec3 times(double factor) {
        return new Vec3(factor * x, factor * y, factor * z);
    }

    public double dot(Vec3 other) {
        return x * other.x + y * other.y + z * other.z;
    }

    public double norm() {
        return Math.sqrt(dot(this));
    }

    /** The direction of this vector, of length one. */
    public Vec3 unit() {
        return times(1 / norm());
    }

    /** What is left when the part along the unit direction is taken away. */
    public Vec3 across(Vec3 direction) {
        return minus(direction.times(dot(direction)));
    }

    /** Turned about Z, from X towards Y. */
    public Vec3 aboutZ(double angle_deg) {
        double cos = cos(angle_deg);
        double sin = sin(angle_deg);
        return new Vec3(cos * x - sin * y, sin * x + cos * y, z);
    }

    /** Turned about X, from Y towards Z. */
    public Vec3 aboutX(double angle_deg) {
        double cos = cos(angle_deg);
        double sin = sin(angle_deg);
        return new Vec3(x, cos * y - sin * z, sin * y + cos * z);
    }

    public double along(Axis axis) {
        return switch (axis) {
            case X -> x;
            case Y -> y;
            case Z -> z;
            case A, C -> throw new IllegalArgumentException(axis + " is a rotary axis; a place has X, Y and Z");
        };
    }

    /** A vector of this length along a linear axis. */
    public static Vec3 on(Axis axis, double length) {
        return switch (axis) {
            case X -> new Vec3(length, 0, 0);
            case Y -> new Vec3(0, length, 0);
            case Z -> new Vec3(0, 0, length);
            case A, C -> throw new IllegalArgumentException(axis + " is a rotary axis; a direction needs X, Y or Z");
        };
    }

    // Quarter turns come out exact, so that half a turn and back is the identity.
    private static double cos(double angle_deg) {
        return sin(angle_deg + 90);
    }

    private static double sin(double angle_deg) {
        double turned_deg = angle_deg % 360;
        if (turned_deg % 90 == 0) {
            return switch ((int) (turned_deg / 90)) {
                case 1, -3 -> 1;
                case 3, -1 -> -1;
                default -> 0;
            };
        }
        return Math.sin(Math.toRadians(turned_deg));
    }
}
