package sweepbook.cli.book;

import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.Segment;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** How the trace of a touch becomes the reading that counts for its typed position. */
@FunctionalInterface
public interface ReadingRule {
    Finding<Estimate> reading(Feature feature, Trace trace, SweepFindings findings);

    /** High spot and stable zero as estimated. A flat face has no crest to miss: where the contact stands still counts. */
    ReadingRule ESTIMATED = (feature, trace, findings) ->
            feature instanceof Feature.Flat ? findings.stableZero().map(StableZero::level) : findings.readingAtZero();

    /**
     * What a person with a spreadsheet would take, told where the sweep is: the greatest reading of the sweep, the last
     * reading before the jog, and the last of all. For comparison only.
     */
    ReadingRule MAXIMUM_AND_LAST = (feature, trace, findings) -> {
        if (trace.isEmpty()) {
            return Finding.notDetermined("the trace is empty");
        }
        double last_mm = trace.reading_mm(trace.size() - 1);
        if (feature instanceof Feature.Flat) {
            return Finding.found(Estimate.exact(last_mm));
        }
        int sign = findings.pressing().map(Pressing::sign).orElse(1);
        double crest_mm = Double.NEGATIVE_INFINITY;
        double beforeJog_mm = last_mm;
        for (Segment segment : findings.segments()) {
            boolean swept = segment.kind() == Segment.Kind.SWEEP || segment.kind() == Segment.Kind.CREST_DWELL;
            for (int i = 0; swept && i < trace.size(); i++) {
                if (trace.time_s(i) >= segment.from_s() && trace.time_s(i) <= segment.to_s()) {
                    crest_mm = Math.max(crest_mm, sign * trace.reading_mm(i));
                    beforeJog_mm = trace.reading_mm(i);
                }
            }
        }
        return Double.isInfinite(crest_mm)
                ? Finding.notDetermined("the trace holds no sweep")
                : Finding.found(Estimate.exact(last_mm + sign * crest_mm - beforeJog_mm));
    };
}
