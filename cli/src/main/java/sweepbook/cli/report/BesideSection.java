package sweepbook.cli.report;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.Book;

/** What other indicators sent during the touches, each under its name; nothing was sought in it. */
final class BesideSection {
    private final Page page;
    private final Markup html;

    BesideSection(Page page) {
        this.page = page;
        this.html = page.html();
    }

    /** Writes nothing where there was one indicator only. */
    void write(Book book) {
        if (book.attempts().stream().allMatch(attempt -> attempt.beside().isEmpty())) {
            return;
        }
        html.element("h3", "Indicators beside")
                .element(
                        "p",
                        "What they sent is on record with each attempt. It decides nothing: touches are found in the"
                                + " readings of the indicator that measures.");
        for (Attempt attempt : book.attempts()) {
            for (int i = 0; i < attempt.beside().size(); i++) {
                write(attempt, i);
            }
        }
    }

    private void write(Attempt attempt, int which) {
        Attempt.Beside beside = attempt.beside().get(which);
        Trace trace = beside.trace();
        LengthUnit unit = trace.unit();
        double least_mm = Double.POSITIVE_INFINITY;
        double greatest_mm = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < trace.size(); i++) {
            least_mm = Math.min(least_mm, trace.reading_mm(i));
            greatest_mm = Math.max(greatest_mm, trace.reading_mm(i));
        }
        html.element(
                "h4",
                beside.indicator() + ", attempt " + attempt.number() + ": " + attempt.offset() + ", touch "
                        + (attempt.touch() + 1));
        page.facts(new Page.Facts()
                .add("Readings", Integer.toString(trace.size()))
                .add("Least reading", Figures.length(least_mm, unit))
                .add("Greatest reading", Figures.length(greatest_mm, unit)));
        String id = "attempt-" + attempt.number() + "-beside-" + (which + 1);
        html.open("figure").open("div", "class", "pictures").raw(picture(id, beside, least_mm, greatest_mm));
        html.close().element("figcaption", caption(beside)).close();
    }

    private static String caption(Attempt.Beside beside) {
        return beside.trace().size() + " readings of " + beside.indicator() + "; time counts from the first.";
    }

    private static String picture(String id, Attempt.Beside beside, double least_mm, double greatest_mm) {
        Trace trace = beside.trace();
        LengthUnit unit = trace.unit();
        double step_mm = trace.resolution_mm() > 0 ? trace.resolution_mm() : 0.001;
        double start_s = trace.time_s(0);
        double span_s = trace.time_s(trace.size() - 1) - start_s;
        return new Picture(
                        id,
                        beside.indicator(),
                        caption(beside),
                        PictureAxis.of(TracePicture.TIME, 0, Math.max(span_s, 0.1)),
                        PictureAxis.around(
                                TracePicture.readingLabel(unit),
                                unit.fromMm(least_mm),
                                unit.fromMm(greatest_mm),
                                unit.fromMm(10 * step_mm)),
                        List.of())
                .line(
                        trace.size(),
                        i -> trace.time_s(i) - start_s,
                        i -> unit.fromMm(trace.reading_mm(i)),
                        TracePicture.hole_s(trace.size(), span_s),
                        Ink.TRACE)
                .svg();
    }
}
