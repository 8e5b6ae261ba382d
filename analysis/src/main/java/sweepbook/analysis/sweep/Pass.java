package sweepbook.analysis.sweep;

import java.util.Optional;

/**
 * One crossing of the crest.
 *
 * @param from_s start of the part of the trace that was used
 * @param crest_s when the crest was crossed
 * @param to_s end of the part that was used
 * @param crest_mm the crest's reading from this pass alone, in millimetres
 * @param crestStdU_mm its standard uncertainty
 * @param setAside why the pass was left out of the high spot (a chip, a bump, an outlying pass), empty where it fits
 */
public record Pass(
        double from_s, double crest_s, double to_s, double crest_mm, double crestStdU_mm, Optional<String> setAside) {}
