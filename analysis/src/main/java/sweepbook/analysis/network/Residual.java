package sweepbook.analysis.network;

/**
 * How one observation fits the others.
 *
 * @param observation as made
 * @param residual_mm adjusted less observed
 * @param redundancy which part of a mistake in it shows in its own residual: 0 (none, nothing controls it) to 1
 * @param normalised residual over its own standard deviation; 0 where nothing controls it
 * @param detectable_mm smallest mistake that is found with the stated power; infinite where nothing controls it
 */
public record Residual(
        Observation observation, double residual_mm, double redundancy, double normalised, double detectable_mm) {
    // Redundancy numbers carry rounding errors of this size where the true one is 0.
    private static final double NOTHING = 1e-9;

    /** Whether a mistake in this observation could be found at all. */
    public boolean isControlled() {
        return redundancy > NOTHING;
    }

    /** The mistake that would explain the residual. */
    public double mistake_mm() {
        return isControlled() ? -residual_mm / redundancy : Double.NaN;
    }
}
