package sweepbook.analysis.runout;

/**
 * How well the turns repeat, drift taken out, each turn's readings averaged over a tenth of a right angle.
 *
 * @param repeatability_mm standard deviation between turns at the same angle, over all angles
 * @param asynchronous_mm spread between turns at the same angle, the greatest over the angles (ISO 230-7)
 */
public record TurnScatter(double repeatability_mm, double asynchronous_mm) {}
