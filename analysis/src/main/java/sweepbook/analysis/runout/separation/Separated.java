package sweepbook.analysis.runout.separation;

import sweepbook.analysis.runout.fit.Profile;

/**
 * Part and spindle apart, without mean and first harmonic: how the part was centred is neither's form.
 *
 * @param part form of the part, in its own angle
 * @param spindle error motion of the spindle in the direction of the indicator, in the spindle's angle
 */
public record Separated(Profile part, Profile spindle) {}
