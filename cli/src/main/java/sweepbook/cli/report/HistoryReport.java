package sweepbook.cli.report;

import java.util.List;
import java.util.Optional;
import sweepbook.analysis.uncertainty.Change;
import sweepbook.cli.book.History;
import sweepbook.cli.book.History.Point;
import sweepbook.cli.book.History.Series;
import sweepbook.cli.book.History.Source;
import sweepbook.cli.plan.Plan;

/** What a machine's books say of its offsets over time, as a page. */
public final class HistoryReport {
    /** What the books lie apart is told in the coarsest of these that it holds twice. */
    private enum Step {
        DAYS(86_400, "days"),
        HOURS(3_600, "hours"),
        MINUTES(60, "minutes");

        private final double seconds;
        private final String words;

        Step(double seconds, String words) {
            this.seconds = seconds;
            this.words = words;
        }

        static Step of(double apart_s) {
            return apart_s >= 2 * DAYS.seconds ? DAYS : apart_s >= 2 * HOURS.seconds ? HOURS : MINUTES;
        }
    }

    private final Page page;
    private final Markup html;

    private HistoryReport(Page page) {
        this.page = page;
        this.html = page.html();
    }

    public static String html(History history) {
        Page page = new Page(
                "Offsets over time",
                history.machine().name() + ", serial number "
                        + history.machine().serial());
        HistoryReport report = new HistoryReport(page);
        for (int i = 0; i < history.series().size(); i++) {
            report.series(history.series().get(i), "offset-" + (i + 1));
        }
        page.html()
                .element(
                        "p",
                        "\u201cMoved since\u201d names the latest earlier book from which the value differs by more than"
                                + " chance, all earlier ones having been looked at (5 % for them together). What both"
                                + " books share, as the indicator's own error, counts as if they did not: a small move may"
                                + " be missed.");
        report.books(history.books());
        page.footer();
        return page.finish();
    }

    private void books(List<Source> books) {
        html.element("h2", "The books");
        Table table = new Table(
                html,
                "What the figures were found in, in the order in which the books were begun",
                List.of("Book", "Measured by", "Indicator", "Hash of its last line (SHA-256)"));
        for (Source source : books) {
            Plan.Indicator indicator = source.book().plan().indicator();
            table.row(
                    source.name(),
                    source.book().begun().person(),
                    indicator.description() + ", serial number " + indicator.serial(),
                    source.lastHash());
        }
        table.close();
    }

    private void series(Series series, String id) {
        html.open("section", "class", "history", "aria-labelledby", id).element("h2", series.title(), "id", id);
        if (!series.points().isEmpty()) {
            html.open("figure").open("div", "class", "pictures").raw(picture(series, id));
            html.close().close();
            table(series);
        }
        page.warnings(series.missing());
        html.close();
    }

    private static String picture(Series series, String id) {
        List<Point> points = series.points();
        double start_s = points.get(0).wall_s();
        double apart_s = points.get(points.size() - 1).wall_s() - start_s;
        Step step = Step.of(apart_s);
        double span = Math.max(1, apart_s / step.seconds);
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        double narrowest = 0;
        for (Point point : points) {
            double value = series.unit().fromInside(point.entry().value());
            double u95 = series.unit().fromInside(point.entry().u95());
            double before = point.before().doubleValue();
            least = Math.min(least, Math.min(value - u95, before));
            greatest = Math.max(greatest, Math.max(value + u95, before));
            narrowest = Math.max(narrowest, 4 * u95);
        }
        String start = step == Step.DAYS
                ? BookReport.time(start_s).substring(0, 10)
                : BookReport.time(start_s).substring(0, 16) + " UTC";
        Picture picture = new Picture(
                id + "-picture",
                series.title() + " over time",
                "Measured values with their U95 as bars; the dashed line is what stood in the controller's table.",
                PictureAxis.of(step.words + " since " + start, -0.04 * span, 1.04 * span),
                PictureAxis.around(series.offset() + ", " + series.unit().symbol(), least, greatest, narrowest),
                List.of());
        for (int i = 0; i < points.size(); i++) {
            Point point = points.get(i);
            double at = (point.wall_s() - start_s) / step.seconds;
            double until = i + 1 < points.size() ? (points.get(i + 1).wall_s() - start_s) / step.seconds : 1.04 * span;
            picture.level(point.before().doubleValue(), 0, at, until, Ink.SECOND, i == 0 ? "in the table" : "");
            double value = series.unit().fromInside(point.entry().value());
            double u95 = series.unit().fromInside(point.entry().u95());
            picture.distance(at, value - u95, value + u95, Ink.FIRST, "");
            picture.mark(at, value, Picture.Shape.CIRCLE, Ink.FIRST, "");
        }
        return picture.svg();
    }

    private void table(Series series) {
        Table table = new Table(
                html,
                series.offset(),
                List.of("Measured on", "Value", "In the table then", "Against the book before", "Moved since", "Book"));
        for (int i = 0; i < series.points().size(); i++) {
            Point point = series.points().get(i);
            table.row(
                    BookReport.time(point.wall_s()),
                    Figures.withU95(point.entry(), series.unit()),
                    point.before().toPlainString() + "\u00a0" + series.unit().symbol(),
                    series.step(i)
                            .map(Change::difference)
                            .map(difference -> Figures.withU95(difference, series.unit()))
                            .orElse("\u2013"),
                    movedSince(series, i),
                    point.book());
        }
        table.close();
    }

    /** In words, for the point. */
    public static String movedSince(Series series, int point) {
        Optional<Point> since = series.movedSince(point);
        return since.map(earlier -> BookReport.time(earlier.wall_s()))
                .orElse(point == 0 ? "\u2013" : "no more than chance");
    }

    /** When the point was measured, as the page shows it. */
    public static String time(Series series, int point) {
        return BookReport.time(series.points().get(point).wall_s());
    }

    /** A point's value with its U95, as text. */
    public static String value(Series series, int point) {
        return Figures.withU95(series.points().get(point).entry(), series.unit())
                .replace("\u00a0", " ");
    }
}
