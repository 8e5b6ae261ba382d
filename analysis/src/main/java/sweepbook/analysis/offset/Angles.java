package sweepbook.analysis.offset;

/** One angle in the ways a workshop says it. */
public final class Angles {
    private static final double ARC_SECONDS_PER_DEGREE = 3600;

    private Angles() {}

    /** The angle of a slope, rise over run, in degrees. */
    public static double deg(double slope) {
        return Math.toDegrees(Math.atan(slope));
    }

    public static double arcSeconds(double angle_deg) {
        return angle_deg * ARC_SECONDS_PER_DEGREE;
    }

    /** Millimetres of rise on a metre of run. */
    public static double mm_per_m(double angle_deg) {
        return Math.tan(Math.toRadians(angle_deg)) * 1000;
    }

    /** Inches of rise on a foot of run. */
    public static double in_per_ft(double angle_deg) {
        return Math.tan(Math.toRadians(angle_deg)) * 12;
    }
}
