package sweepbook.analysis.runout.shaft;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * Where a section's centre lies off the axis of turning.
 *
 * @param along_mm place of the section along the shaft
 * @param x component towards angle zero, in millimetres
 * @param y component towards 90 degrees
 */
public record Station(double along_mm, Estimate x, Estimate y) {
    /** From an eccentricity and the angle of its high spot. */
    public static Station of(double along_mm, Estimate eccentricity, Estimate highSpot_deg) {
        double e = eccentricity.value();
        double angle = Math.toRadians(highSpot_deg.value());
        double across = e * Math.toRadians(highSpot_deg.stdU());
        double cos = Math.cos(angle);
        double sin = Math.sin(angle);
        double dof = Math.min(eccentricity.degreesOfFreedom(), highSpot_deg.degreesOfFreedom());
        return new Station(
                along_mm,
                new Estimate(e * cos, Math.hypot(eccentricity.stdU() * cos, across * sin), dof),
                new Estimate(e * sin, Math.hypot(eccentricity.stdU() * sin, across * cos), dof));
    }

    public double eccentricity_mm() {
        return Math.hypot(x.value(), y.value());
    }
}
