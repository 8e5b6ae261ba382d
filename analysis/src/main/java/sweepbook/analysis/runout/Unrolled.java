package sweepbook.analysis.runout;

/**
 * The readings against the angle turned through, drift and mean taken out, for a picture.
 *
 * @param angle_deg from the zero of the angle on, not folded into one turn
 * @param departure_mm reading less mean and drift
 */
public record Unrolled(double[] angle_deg, double[] departure_mm) {}
