package sweepbook.simulator.trial;

/**
 * The least standard deviation of the crest's height that readings of some passes allow (Cramer-Rao), where all passes share
 * the height while each has an instant and a speed of its own.
 *
 * <p>At distance s from the crest the reading is h + D(s), D(s) = sqrt(Re^2 - s^2) - Re. A pass' instant shifts all its s
 * alike, to first order, and its speed scales them, so the columns of its model are 1, D'(s) and D'(s) s. What a pass tells of h
 * is what is left of the first column beside the other two; the passes' information adds up. Where the hand's speed wanders, the
 * wandering itself is taken as known, so the bound is below what can be reached.
 */
final class CrestBound {
    private final double reach_mm;
    private final double variance_mm2;
    private double information;
    private double n;
    private double s1;
    private double s2;
    private double s11;
    private double s12;
    private double s22;

    /**
     * @param reach_mm radius of the pin and the ball together, Re
     * @param variance_mm2 of one reading
     */
    CrestBound(double reach_mm, double variance_mm2) {
        this.reach_mm = reach_mm;
        this.variance_mm2 = variance_mm2;
    }

    /** One reading of the pass at hand, at a distance from the crest. */
    void reading(double s_mm) {
        double slope = -s_mm / Math.sqrt(reach_mm * reach_mm - s_mm * s_mm);
        double scale_mm = slope * s_mm;
        n++;
        s1 += slope;
        s2 += scale_mm;
        s11 += slope * slope;
        s12 += slope * scale_mm;
        s22 += scale_mm * scale_mm;
    }

    /** The pass at hand ends. Fewer than three readings tell nothing of the crest. */
    void endOfPass() {
        double determinant = s11 * s22 - s12 * s12;
        if (n > 2 && determinant > 0) {
            information += n - (s22 * s1 * s1 - 2 * s12 * s1 * s2 + s11 * s2 * s2) / determinant;
        }
        n = s1 = s2 = s11 = s12 = s22 = 0;
    }

    /** The bound of all passes so far; infinite where they tell nothing. */
    double stdU_mm() {
        return Math.sqrt(variance_mm2 / information);
    }
}
