package sweepbook.analysis.uncertainty;

/**
 * What is taken to be known of a quantity between its limits -a and +a (JCGM 100:2008, 4.3), or of its scatter.
 */
public enum Distribution {
    /** A scatter told as a standard deviation; no limits. */
    NORMAL("normal", 1),
    /** Anywhere between the limits alike: a display step, a permissible error (4.3.7, F.2.2.1). */
    RECTANGULAR("rectangular", 3),
    /** Sum of two equal rectangular ones, or more likely near the middle (4.3.9). */
    TRIANGULAR("triangular", 6),
    /** A cyclic quantity met at an unknown moment (H.1.3.4). */
    ARCSINE("arcsine", 2);

    private final String label;
    private final double squaredDivisor;

    Distribution(String label, double squaredDivisor) {
        this.label = label;
        this.squaredDivisor = squaredDivisor;
    }

    /** The name a budget table prints. */
    public String label() {
        return label;
    }

    /**
     * Standard uncertainty of a quantity within plus or minus the half-width; for {@link #NORMAL} the half-width is the
     * standard deviation itself.
     */
    public double stdU(double halfWidth) {
        if (!(halfWidth >= 0) || Double.isInfinite(halfWidth)) {
            throw new IllegalArgumentException("a half-width is a finite number from 0 up, not " + halfWidth);
        }
        return halfWidth / Math.sqrt(squaredDivisor);
    }
}
