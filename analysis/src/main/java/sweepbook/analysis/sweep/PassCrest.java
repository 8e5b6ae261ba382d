package sweepbook.analysis.sweep;

/**
 * What one pass says of the crest, at the curvature of the contact on which all passes agree.
 *
 * @param time_s when the crest was crossed
 * @param crest_mm its reading
 * @param variance_mm2 of the reading, the curvature being known
 * @param top_mm the highest level that its smoothed readings reach
 * @param topStdU_mm by how much noise may have raised that
 * @param byBend by how much the reading changes with the curvature
 */
record PassCrest(double time_s, double crest_mm, double variance_mm2, double top_mm, double topStdU_mm, double byBend) {
    /** The same crest with a drift taken out that counts from a given time. */
    double without(double drift_mm_per_s, double since_s) {
        return crest_mm - drift_mm_per_s * (time_s - since_s);
    }
}
