package sweepbook.cli.report;

import java.util.function.DoubleUnaryOperator;

/**
 * A closed curve about a centre as inline SVG: angle zero to the right, growing against the clock; departures enlarged
 * on a circle that stands for zero. Apart in black and white by width and dash.
 */
final class PolarPicture {
    private static final double SIZE_PX = 400;
    private static final double MIDDLE_PX = SIZE_PX / 2;
    private static final double ZERO_PX = 105;
    private static final double MOST_PX = 50;
    private static final double RIM_PX = 168;
    /** Texts stand in the lower corners, where no curve comes. */
    private static final double CORNER_PX = 4;

    private static final int STEPS = 720;

    private final Markup svg = new Markup();
    private final double perUnit_px;

    /**
     * @param most the departure that is drawn farthest from the zero circle
     * @param step the distance between two circles of the grid
     * @param stepText what the step is called
     */
    PolarPicture(String id, String title, String description, double most, double step, String stepText) {
        perUnit_px = MOST_PX / Math.max(most, 1e-12);
        svg.open(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "viewBox",
                "0 0 " + (int) SIZE_PX + " " + (int) SIZE_PX,
                "role",
                "img",
                "aria-labelledby",
                id + "-title " + id + "-description",
                "font-family",
                "system-ui, sans-serif",
                "font-size",
                Labels.FONT_PX);
        svg.element("title", title, "id", id + "-title");
        svg.element("desc", description, "id", id + "-description");
        for (double ring = -MOST_PX - 1e-9; ring <= MOST_PX + 1e-9; ring += Math.max(step * perUnit_px, 8)) {
            circle(ZERO_PX + Math.round(ring / (step * perUnit_px)) * step * perUnit_px, Ink.FAINT);
        }
        for (int degrees = 0; degrees < 360; degrees += 30) {
            double t = Math.toRadians(degrees);
            svg.empty("path", Ink.FAINT.stroke("d", "M" + at(t, 35) + "L" + at(t, RIM_PX)));
            double x = MIDDLE_PX + (RIM_PX + 15) * Math.cos(t);
            double y = MIDDLE_PX - (RIM_PX + 12) * Math.sin(t) + 5;
            Labels.text(svg, degrees + "\u00b0", x, y, "middle", Ink.TRACE.colour());
        }
        Labels.text(svg, stepText, CORNER_PX, SIZE_PX - CORNER_PX, "start", Ink.TRACE.colour());
        svg.empty("circle", zero());
    }

    private Object[] zero() {
        return Ink.TRACE.stroke("cx", MIDDLE_PX, "cy", MIDDLE_PX, "r", ZERO_PX);
    }

    private void circle(double radius_px, Ink ink) {
        svg.empty("circle", ink.stroke("cx", MIDDLE_PX, "cy", MIDDLE_PX, "r", radius_px));
    }

    /** A closed curve; the angle in radians. */
    PolarPicture curve(DoubleUnaryOperator departure, Ink ink) {
        StringBuilder path = new StringBuilder();
        for (int i = 0; i < STEPS; i++) {
            double t = 2 * Math.PI * i / STEPS;
            path.append(i == 0 ? 'M' : 'L').append(at(t, ZERO_PX + departure.applyAsDouble(t) * perUnit_px));
        }
        svg.empty("path", ink.stroke("d", path + "Z", "stroke-linejoin", "round"));
        return this;
    }

    /** An arrow from the centre to the rim at an angle. */
    PolarPicture pointer(double angle_rad, String label, Ink ink) {
        double tip = RIM_PX - 6;
        String head =
                "M" + at(angle_rad - 0.05, tip - 12) + "L" + at(angle_rad, tip) + "L" + at(angle_rad + 0.05, tip - 12);
        svg.empty("path", ink.stroke("d", "M" + at(angle_rad, 35) + "L" + at(angle_rad, tip) + head));
        Labels.text(svg, "arrow: " + label, SIZE_PX - CORNER_PX, SIZE_PX - CORNER_PX, "end", ink.colour());
        return this;
    }

    private static String at(double angle_rad, double radius_px) {
        StringBuilder text = new StringBuilder();
        Markup.appendPx(text, MIDDLE_PX + radius_px * Math.cos(angle_rad));
        Markup.appendPx(text.append(' '), MIDDLE_PX - radius_px * Math.sin(angle_rad));
        return text.toString();
    }

    String svg() {
        return svg.close().toString();
    }
}
