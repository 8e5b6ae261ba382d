package sweepbook.analysis.uncertainty;

/**
 * One source of uncertainty of a result.
 *
 * @param source what it is, in words a technician knows
 * @param distribution what is taken to be known of it
 * @param stdU its own standard uncertainty, in its own unit
 * @param unit of stdU, as it is written behind a number; empty for a ratio
 * @param sensitivity by how much the result changes when the source changes by one, with its sign
 * @param degreesOfFreedom of stdU; infinite where it is taken as exactly known
 * @param toLowerIt what a person can do to make it smaller
 */
public record BudgetLine(
        String source,
        Distribution distribution,
        double stdU,
        String unit,
        double sensitivity,
        double degreesOfFreedom,
        String toLowerIt) {
    public BudgetLine {
        if (!(stdU >= 0) || Double.isInfinite(stdU) || !Double.isFinite(sensitivity) || !(degreesOfFreedom > 0)) {
            throw new IllegalArgumentException("not a budget line: " + source + ", standard uncertainty " + stdU
                    + ", sensitivity " + sensitivity + ", degrees of freedom " + degreesOfFreedom);
        }
    }

    /** A source that is a length in millimetres. */
    public BudgetLine(
            String source,
            Distribution distribution,
            double stdU,
            double sensitivity,
            double degreesOfFreedom,
            String toLowerIt) {
        this(source, distribution, stdU, "mm", sensitivity, degreesOfFreedom, toLowerIt);
    }

    /** A source told by its limits, taken as exactly known. */
    public static BudgetLine within(
            String source, Distribution distribution, double halfWidth, double sensitivity, String toLowerIt) {
        return new BudgetLine(
                source, distribution, distribution.stdU(halfWidth), sensitivity, Double.POSITIVE_INFINITY, toLowerIt);
    }

    /** A source that is itself an estimate. */
    public static BudgetLine of(String source, Estimate estimate, double sensitivity, String toLowerIt) {
        return new BudgetLine(
                source, Distribution.NORMAL, estimate.stdU(), sensitivity, estimate.degreesOfFreedom(), toLowerIt);
    }

    /** What it adds to the standard uncertainty of the result, in the result's unit, not negative. */
    public double contribution() {
        return Math.abs(sensitivity) * stdU;
    }

    /** The line for the result times a factor. */
    public BudgetLine times(double factor) {
        return new BudgetLine(source, distribution, stdU, unit, sensitivity * factor, degreesOfFreedom, toLowerIt);
    }

    /** The line with its own standard uncertainty in another unit than millimetres. */
    public BudgetLine in(String its) {
        return new BudgetLine(source, distribution, stdU, its, sensitivity, degreesOfFreedom, toLowerIt);
    }
}
