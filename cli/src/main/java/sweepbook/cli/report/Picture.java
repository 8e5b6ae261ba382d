package sweepbook.cli.report;

import java.util.List;
import java.util.function.IntToDoubleFunction;

/**
 * A scientific picture as inline SVG: two axes, lines, levels with their uncertainty, marks, labels that keep out of
 * each other's way. Drawn for a width of 480 pixels, so that its text stays readable on a phone; used by one thread.
 */
final class Picture {
    static final double WIDTH_PX = 480;
    static final double HEIGHT_PX = 300;
    private static final double ROW_PX = 20;
    private static final double SMALL_PX = 13;
    private static final double BELOW_PX = 42;
    private static final double RIGHT_PX = 18;
    private static final double TICK_PX = 5;

    /** A stretch of the axis across; the first of its names that fits is written into it. */
    record Stretch(double from, double to, Ink ink, List<String> names) {}

    /** A mark on a point. */
    enum Shape {
        POINTS_DOWN("M0 0L-5 -10H5Z"),
        POINTS_UP("M0 0L-5 10H5Z"),
        CIRCLE("M-3.5 0A3.5 3.5 0 1 0 3.5 0A3.5 3.5 0 1 0 -3.5 0Z"),
        CROSS("M-6 -6L6 6M-6 6L6 -6");

        private final String path;

        Shape(String path) {
            this.path = path;
        }

        /** About its point. */
        String path() {
            return path;
        }
    }

    private final String id;
    private final String title;
    private final String description;
    private final PictureAxis across;
    private final PictureAxis up;
    private final double left;
    private final double top;
    private final Labels labels;
    private final Markup behind = new Markup();
    private final Markup lines = new Markup();
    private final Markup marks = new Markup();

    /**
     * @param id unlike that of any other picture of the page
     * @param title what it is
     * @param description what it shows, for those who cannot see it
     * @param stretches named stretches of the axis across, in a strip above the plot; may be empty
     */
    Picture(String id, String title, String description, PictureAxis across, PictureAxis up, List<Stretch> stretches) {
        this.id = id;
        this.title = title;
        this.description = description;
        this.across = across;
        this.up = up;
        double widest =
                up.ticks().labels().stream().mapToDouble(Labels::width_px).max().orElse(0);
        left = widest + TICK_PX + 5;
        // The uppermost number stands clear of the axis' name.
        top = stretches.isEmpty() ? 1.4 * ROW_PX : 2 * ROW_PX;
        labels = new Labels(left, top, width(), height());
        stretches.forEach(this::stretch);
    }

    private double width() {
        return WIDTH_PX - left - RIGHT_PX;
    }

    private double height() {
        return HEIGHT_PX - BELOW_PX - top;
    }

    private double x(double value) {
        return left + across.share(value) * width();
    }

    private double y(double value) {
        return top + (1 - up.share(value)) * height();
    }

    private void stretch(Stretch stretch) {
        double from = Math.max(left, x(stretch.from()));
        double to = Math.min(left + width(), x(stretch.to()));
        if (to <= from) {
            return;
        }
        behind.empty(
                "rect",
                "x",
                from,
                "y",
                top - ROW_PX,
                "width",
                to - from,
                "height",
                ROW_PX - 2,
                "fill",
                stretch.ink().tint(),
                "stroke",
                "#fff");
        stretch.names().stream()
                .filter(name -> Labels.width_px(name) * SMALL_PX / Labels.FONT_PX <= to - from)
                .findFirst()
                .ifPresent(name -> behind.element(
                        "text",
                        name,
                        "x",
                        (from + to) / 2,
                        "y",
                        top - 7,
                        "text-anchor",
                        "middle",
                        "font-size",
                        SMALL_PX));
        behind.empty("path", Ink.FAINT.stroke("d", path(to, top) + "v" + px(height())));
    }

    /** A shaded part of the axis across, over the whole height. */
    Picture band(double from, double to, Ink ink) {
        behind.empty("rect", "x", x(from), "y", top, "width", x(to) - x(from), "height", height(), "fill", ink.tint());
        return this;
    }

    /** A level with plus or minus its uncertainty, over part of the axis across; the label may be empty. */
    Picture level(double value, double plusMinus, double from, double to, Ink ink, String label) {
        double upper = y(value + plusMinus);
        behind.empty(
                "rect",
                "x",
                x(from),
                "y",
                upper,
                "width",
                x(to) - x(from),
                "height",
                y(value - plusMinus) - upper,
                "fill",
                ink.tint());
        lines.empty("path", ink.stroke("d", path(x(from), y(value)) + "H" + px(x(to))));
        labels.keepClearOfBox(x(from), y(value) - 1, x(to) - x(from), 2);
        if (!label.isEmpty()) {
            labels.addAlong(label, x(from), x(to), y(value), ink);
        }
        return this;
    }

    /**
     * A line through so many points, in ascending order across.
     *
     * @param breakAt a step across that is wider than this is a gap; infinite for none
     */
    Picture line(int points, IntToDoubleFunction xs, IntToDoubleFunction ys, double breakAt, Ink ink) {
        double breakAt_px = Math.max(2, breakAt / (across.to() - across.from()) * width());
        String path =
                Polyline.path(points, i -> x(xs.applyAsDouble(i)), i -> y(ys.applyAsDouble(i)), breakAt_px, labels);
        lines.empty("path", ink.stroke("d", path, "stroke-linejoin", "round"));
        return this;
    }

    /** A dot for each of so many points; those outside the plot are left out. */
    Picture dots(int points, IntToDoubleFunction xs, IntToDoubleFunction ys, Ink ink) {
        StringBuilder path = new StringBuilder();
        for (int i = 0; i < points; i++) {
            if (up.holds(ys.applyAsDouble(i))) {
                path.append(path(x(xs.applyAsDouble(i)), y(ys.applyAsDouble(i))))
                        .append("h0");
            }
        }
        lines.empty(
                "path",
                "d",
                path,
                "fill",
                "none",
                "stroke",
                ink.colour(),
                "stroke-width",
                3.4,
                "stroke-linecap",
                "round");
        return this;
    }

    /** A mark on a point; the label may be empty. */
    Picture mark(double atX, double atY, Shape shape, Ink ink, String label) {
        String place = "translate(" + px(x(atX)) + " " + px(y(atY)) + ")";
        String fill = shape == Shape.CROSS ? "none" : ink.colour();
        marks.empty(
                "path", "d", shape.path, "transform", place, "fill", fill, "stroke", ink.colour(), "stroke-width", 1.6);
        labels.keepClearOfBox(x(atX) - 6, y(atY) - 6, 12, 12);
        if (!label.isEmpty() && across.holds(atX) && up.holds(atY)) {
            labels.add(label, x(atX), y(atY), ink);
        }
        return this;
    }

    /** A distance between two levels, as on a drawing: a line with a bar at each end; the label may be empty. */
    Picture distance(double atX, double fromY, double toY, Ink ink, String label) {
        String bars = path(x(atX) - 5, y(fromY)) + "h10" + path(x(atX), y(fromY)) + "V" + px(y(toY))
                + path(x(atX) - 5, y(toY)) + "h10";
        marks.empty("path", "d", bars, "fill", "none", "stroke", ink.colour(), "stroke-width", 1.4);
        labels.keepClearOfBox(x(atX) - 2, Math.min(y(fromY), y(toY)), 4, Math.abs(y(toY) - y(fromY)));
        if (!label.isEmpty()) {
            labels.add(label, x(atX), y((fromY + toY) / 2), ink);
        }
        return this;
    }

    /** The picture as drawn; asked for once, at the end. */
    String svg() {
        Markup svg = new Markup();
        String described = id + "-title " + id + "-desc";
        svg.open(
                        "svg",
                        "xmlns",
                        "http://www.w3.org/2000/svg",
                        "viewBox",
                        "0 0 " + px(WIDTH_PX) + " " + px(HEIGHT_PX),
                        "role",
                        "img",
                        "aria-labelledby",
                        described,
                        "font-family",
                        "system-ui, sans-serif",
                        "font-size",
                        Labels.FONT_PX,
                        "fill",
                        Ink.TRACE.colour())
                .element("title", title, "id", id + "-title")
                .element("desc", description, "id", id + "-desc")
                .open("clipPath", "id", id + "-plot")
                .empty("rect", "x", left, "y", top, "width", width(), "height", height())
                .close();
        svg.raw(behind.toString());
        axes(svg);
        svg.open("g", "clip-path", "url(#" + id + "-plot)")
                .raw(lines.toString())
                .raw(marks.toString())
                .close();
        labels.draw(svg);
        return svg.close().toString();
    }

    private void axes(Markup svg) {
        double bottom = top + height();
        StringBuilder grid = new StringBuilder();
        for (double value : up.ticks().values()) {
            grid.append(path(left, y(value))).append('H').append(px(left + width()));
        }
        svg.empty("path", Ink.FAINT.stroke("d", grid));
        StringBuilder frame = new StringBuilder(path(left, top)).append('V').append(px(bottom));
        frame.append('H').append(px(left + width()));
        List<Double> ups = up.ticks().values();
        for (int i = 0; i < ups.size(); i++) {
            frame.append(path(left - TICK_PX, y(ups.get(i)))).append('h').append(px(TICK_PX));
            tickLabel(svg, up.ticks().labels().get(i), left - TICK_PX - 3, y(ups.get(i)) + 5, "end");
        }
        List<Double> acrosses = across.ticks().values();
        for (int i = 0; i < acrosses.size(); i++) {
            frame.append(path(x(acrosses.get(i)), bottom)).append('v').append(px(TICK_PX));
            tickLabel(svg, across.ticks().labels().get(i), x(acrosses.get(i)), bottom + TICK_PX + 13, "middle");
        }
        svg.empty("path", "d", frame, "fill", "none", "stroke", Ink.TRACE.colour(), "stroke-width", 1.0);
        svg.element("text", up.label(), "x", 2.0, "y", 14.0, "font-weight", "600");
        svg.element(
                "text",
                across.label(),
                "x",
                left + width(),
                "y",
                HEIGHT_PX - 5,
                "text-anchor",
                "end",
                "font-weight",
                "600");
    }

    private static void tickLabel(Markup svg, String label, double x, double y, String anchor) {
        svg.element("text", label, "x", x, "y", y, "text-anchor", anchor);
    }

    private static String path(double x, double y) {
        return "M" + px(x) + " " + px(y);
    }

    private static String px(double value) {
        StringBuilder text = new StringBuilder();
        Markup.appendPx(text, value);
        return text.toString();
    }
}
