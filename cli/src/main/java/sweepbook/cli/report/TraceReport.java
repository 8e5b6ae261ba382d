package sweepbook.cli.report;

import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.cli.book.LengthWords;

/** A single trace as a page. */
public final class TraceReport {
    private TraceReport() {}

    /**
     * The page.
     *
     * @param trace holds at least one reading
     */
    public static String html(TraceFile file, Trace trace, SweepFindings findings) {
        Page page = new Page(file.name(), trace.size() + " readings of an indicator");
        Page.Facts facts = file.to(new Page.Facts());
        if (findings.resolution_mm() > 0) {
            facts.add("Resolution", Figures.length(findings.resolution_mm(), trace.unit()));
        }
        page.facts(TouchSection.findings(facts, findings, trace.unit()));
        page.warnings(LengthWords.in(trace.unit(), findings.warnings()));
        TouchSection.pictures(page.html(), "trace", trace, findings);
        page.footer();
        return page.finish();
    }
}
