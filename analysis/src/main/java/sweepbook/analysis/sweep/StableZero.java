package sweepbook.analysis.sweep;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * The dwell at the end that has stopped creeping.
 *
 * @param level its reading, in millimetres
 * @param from_s where the part used begins
 * @param to_s where it ends
 */
public record StableZero(Estimate level, double from_s, double to_s) {}
