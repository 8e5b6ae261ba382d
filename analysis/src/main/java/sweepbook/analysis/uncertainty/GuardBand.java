package sweepbook.analysis.uncertainty;

/** How far inside a limit a result must lie to prove conformity, by edition of ISO 14253-1. */
public enum GuardBand {
    /** Editions 1998 and 2013: the expanded uncertainty, k = 2; for few degrees of freedom the t-factor of 95.45 %. */
    EXPANDED_UNCERTAINTY("U, ISO 14253-1:2013", 0.9545),
    /** Edition 2017: 95 % probability at one limit, 1.65 u; for few degrees of freedom the one-sided t-factor. */
    ONE_SIDED_95("1.65 u, ISO 14253-1:2017", 0.90);

    private final String label;
    private final double twoSidedProbability;

    GuardBand(String label, double twoSidedProbability) {
        this.label = label;
        this.twoSidedProbability = twoSidedProbability;
    }

    /** Rule and edition, as a report prints it. */
    public String label() {
        return label;
    }

    /** Width of the band in the estimate's unit. */
    public double width(Estimate estimate) {
        return Estimate.tFactor(twoSidedProbability, estimate.degreesOfFreedom()) * estimate.stdU();
    }
}
