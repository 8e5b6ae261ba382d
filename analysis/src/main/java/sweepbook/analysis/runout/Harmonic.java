package sweepbook.analysis.runout;

import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * One undulation number of a profile: amplitude * cos(upr * angle - phase).
 *
 * @param upr undulations per revolution
 * @param amplitude half its peak to valley, in millimetres
 * @param phase_deg where in its own cycle it is greatest, 0 to 360; for the first harmonic that is the high spot.
 *     Not determined where the undulation does not stand out of the noise, or its U95 would be a quarter of the cycle
 */
public record Harmonic(int upr, Estimate amplitude, Finding<Estimate> phase_deg) {}
