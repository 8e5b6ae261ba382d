package sweepbook.analysis.runout.circle;

/**
 * A reference circle about a profile, and the out-of-roundness about it.
 *
 * @param x_mm its centre, from where the radii count
 * @param y_mm its centre
 * @param radius_mm its radius; of the minimum zone the mean of its two
 * @param outOfRoundness_mm greatest less least distance from its centre
 * @param touching the points that fix it, none for least squares
 */
public record Roundness(double x_mm, double y_mm, double radius_mm, double outOfRoundness_mm, int[] touching) {}
