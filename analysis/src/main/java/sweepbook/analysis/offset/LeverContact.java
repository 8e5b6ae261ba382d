package sweepbook.analysis.offset;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * A swinging contact whose lever leans off the surface: the true movement is the reading times the cosine of the angle
 * (common practice; handbooks tabulate it).
 */
public final class LeverContact {
    private LeverContact() {}

    /**
     * True movement for a reading of one, for {@link IndicatorLimits#readingScale()}.
     *
     * @param angle between lever and surface, in degrees, below 90
     */
    public static Estimate readingScale(Estimate angle) {
        if (!(Math.abs(angle.value()) < 90)) {
            throw new IllegalArgumentException("a lever leans by less than 90 degrees, not " + angle.value());
        }
        double angle_rad = Math.toRadians(angle.value());
        double u_rad = Math.toRadians(angle.stdU());
        // The second term keeps a lever that is believed flat from having no uncertainty at all: cos is flat there.
        double stdU = Math.hypot(Math.sin(angle_rad) * u_rad, u_rad * u_rad / Math.sqrt(2));
        return new Estimate(Math.cos(angle_rad), stdU, angle.degreesOfFreedom());
    }
}
