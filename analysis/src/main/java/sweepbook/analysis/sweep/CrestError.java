package sweepbook.analysis.sweep;

/** How far a pass' crest is off, in its own standard uncertainties: it may be worse than it owns up to, some by much. */
final class CrestError {
    /** As it says, twice as far off, and four times. */
    private static final double[] SHARE = {0.97, 0.025, 0.005};

    private CrestError() {}

    /** Density but for the factor 1 / sqrt(2 pi). */
    static double density(double z) {
        double fourTimes = Math.exp(-z * z / 32);
        double twice = fourTimes * fourTimes * fourTimes * fourTimes;
        return SHARE[0] * twice * twice * twice * twice + SHARE[1] / 2 * twice + SHARE[2] / 4 * fourTimes;
    }
}
