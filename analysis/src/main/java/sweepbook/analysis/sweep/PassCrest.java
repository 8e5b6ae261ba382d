package sweepbook.analysis.sweep;

/**
 * What one pass says of the crest, at the curvature of the contact on which all passes agree.
 *
 * @param time_s when the crest was crossed
 * @param crest_mm its reading
 * @param variance_mm2 of the reading, the curvature being known, model error included
 * @param byBend by how much the reading changes with the curvature
 * @param unsettled probability that the stand still swung
 * @param swing_mm by how much it does
 */
record PassCrest(
        double time_s, double crest_mm, double variance_mm2, double byBend, double unsettled, double swing_mm) {
    private static final double ROOT_2_PI = Math.sqrt(2 * Math.PI);

    /**
     * Density of this pass' crest where the common crest is so far below it: it may be worse than it owns up to, and the stand
     * may not have settled.
     *
     * @param worse factor on its uncertainty
     */
    double density(double off_mm, double worse) {
        double u = worse * Math.sqrt(variance_mm2);
        double swung = Math.sqrt(u * u + swing_mm * swing_mm);
        double z = off_mm / swung;
        return ((1 - unsettled) * CrestError.density(off_mm / u) / u + unsettled * Math.exp(-z * z / 2) / swung)
                / ROOT_2_PI;
    }
}
