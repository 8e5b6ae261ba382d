package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * What the trace of one touch says. All lengths in millimetres.
 *
 * @param pressing what pressing does to the reading, as given or as told from the crests; empty if neither
 * @param resolution_mm step of the display, as given or as told from the readings; NaN if neither
 * @param noise_mm standard deviation of a single reading about the motion, NaN where it could not be told
 * @param highSpot the crest's reading, all fitting passes together
 * @param stableZero the dwell at the end that has stopped creeping
 * @param crestMiss high spot less the dwell on the crest before the first jog: by how much the stop missed the crest
 * @param readingAtZero what the reading at the final position would be on the crest itself: stable zero + crest miss;
 *     where nothing was jogged after the sweep it is the high spot
 * @param passes every crossing of the crest, those left out too
 * @param segments the whole trace, cut into what happened, in time order
 * @param clicks the jog between crest dwell and stable zero
 * @param warnings what the person should know or redo, in plain words
 */
public record SweepFindings(
        Optional<Pressing> pressing,
        double resolution_mm,
        double noise_mm,
        Finding<Estimate> highSpot,
        Finding<StableZero> stableZero,
        Finding<Estimate> crestMiss,
        Finding<Estimate> readingAtZero,
        List<Pass> passes,
        List<Segment> segments,
        JogClicks clicks,
        List<String> warnings) {
    public SweepFindings {
        passes = List.copyOf(passes);
        segments = List.copyOf(segments);
        warnings = List.copyOf(warnings);
    }
}
