package sweepbook.analysis.runout;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * How well the turns repeat, drift taken out, each turn's readings averaged over a tenth of a right angle. The noise
 * of the readings, as far as it does not average out, is in both.
 *
 * @param repeatability standard deviation between turns at the same angle, over all angles, in millimetres
 * @param asynchronous spread between turns at the same angle, the greatest over the angles (ISO 230-7)
 */
public record TurnScatter(Estimate repeatability, Estimate asynchronous) {}
