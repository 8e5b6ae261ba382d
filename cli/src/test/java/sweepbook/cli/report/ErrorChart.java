package sweepbook.cli.report;

import java.util.List;
import java.util.Locale;

/** Errors over the bound, a row for each kind of trouble, on a logarithmic axis; read in black and white by shape. */
final class ErrorChart {
    private static final double WIDTH_PX = 480;
    private static final double LEFT_PX = 122;
    private static final double RIGHT_PX = 14;
    private static final double TOP_PX = 46;
    private static final double ROW_PX = 20;
    private static final double BELOW_PX = 44;
    private static final double LEAST = 0.8;
    private static final double MOST = 600;
    private static final List<Integer> TICKS = List.of(1, 2, 5, 10, 20, 50, 100, 200, 500);

    private final List<Row> rows;
    private final Markup svg = new Markup();

    /**
     * Errors of one kind, over the bound.
     *
     * @param ours of the high spot that is found
     * @param best least of what general tools make of the same sweeps
     */
    record Row(String kind, double ours, double best) {
        String inWords() {
            return String.format(Locale.ROOT, "%s %.1f, the best general tool %.1f", kind, ours, best);
        }
    }

    private ErrorChart(List<Row> rows) {
        this.rows = rows;
    }

    static String svg(List<Row> rows, String title, String description) {
        return new ErrorChart(rows).draw(title, description);
    }

    private static double x(double error) {
        double share = Math.log(Math.min(MOST, Math.max(LEAST, error)) / LEAST) / Math.log(MOST / LEAST);
        return LEFT_PX + share * (WIDTH_PX - LEFT_PX - RIGHT_PX);
    }

    private double bottom() {
        return TOP_PX + rows.size() * ROW_PX;
    }

    private String draw(String title, String description) {
        svg.open(
                        "svg",
                        "xmlns",
                        "http://www.w3.org/2000/svg",
                        "viewBox",
                        "0 0 " + (int) WIDTH_PX + " " + (int) (bottom() + BELOW_PX),
                        "role",
                        "img",
                        "aria-labelledby",
                        "errors-title errors-desc",
                        "font-family",
                        "system-ui, sans-serif",
                        "font-size",
                        Labels.FONT_PX,
                        "fill",
                        Ink.TRACE.colour())
                .element("title", title, "id", "errors-title")
                .element("desc", description, "id", "errors-desc");
        legend();
        for (int tick : TICKS) {
            rule(tick, tick == 1 ? Ink.TRACE : Ink.FAINT);
            text(String.valueOf(tick), x(tick), bottom() + 18, "middle");
        }
        text("bound", x(1), TOP_PX - 5, "middle");
        text("root mean square error / bound", WIDTH_PX - RIGHT_PX, bottom() + BELOW_PX - 6, "end");
        for (int i = 0; i < rows.size(); i++) {
            row(rows.get(i), TOP_PX + (i + 0.5) * ROW_PX);
        }
        return svg.close().toString();
    }

    private void legend() {
        mark(Picture.Shape.CIRCLE, LEFT_PX + 10, 15, Ink.FIRST.colour());
        text("sweepbook", LEFT_PX + 20, 20, "start");
        mark(Picture.Shape.CROSS, LEFT_PX + 132, 15, "none");
        text("the best general tool", LEFT_PX + 144, 20, "start");
    }

    private void rule(double error, Ink ink) {
        svg.empty("path", ink.stroke("d", "M" + (int) x(error) + " " + (int) TOP_PX + "V" + (int) bottom()));
    }

    private void row(Row row, double y) {
        text(row.kind(), LEFT_PX - 8, y + 5, "end");
        String line = "M" + (int) x(row.ours()) + " " + (int) y + "H" + (int) x(row.best());
        svg.empty("path", Ink.FAINT.stroke("d", line));
        mark(Picture.Shape.CIRCLE, x(row.ours()), y, Ink.FIRST.colour());
        mark(Picture.Shape.CROSS, x(row.best()), y, "none");
    }

    private void mark(Picture.Shape shape, double x, double y, String fill) {
        svg.empty(
                "path",
                "d",
                shape.path(),
                "transform",
                "translate(" + Math.round(x) + " " + Math.round(y) + ")",
                "fill",
                fill,
                "stroke",
                Ink.TRACE.colour(),
                "stroke-width",
                1.6);
    }

    private void text(String text, double x, double y, String anchor) {
        svg.element("text", text, "x", x, "y", y, "text-anchor", anchor);
    }
}
