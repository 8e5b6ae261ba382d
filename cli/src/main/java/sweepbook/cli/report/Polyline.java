package sweepbook.cli.report;

import java.util.function.IntToDoubleFunction;

/**
 * A line as an SVG path at the picture's own resolution: of all points in one pixel column the first, the least, the
 * greatest and the last are kept, so that a million readings look the same as themselves and take no more room than a
 * few hundred.
 */
final class Polyline {
    private static final double FAR_OFF = 5_000;

    private final double breakAt_px;
    private final Labels avoiding;
    private final StringBuilder path = new StringBuilder();
    private double lastX = Double.NaN;
    private double lastY = Double.NaN;

    private Polyline(double breakAt_px, Labels avoiding) {
        this.breakAt_px = breakAt_px;
        this.avoiding = avoiding;
    }

    /**
     * The path of so many points, x ascending, in pixels.
     *
     * @param breakAt_px a step in x wider than this is a gap, not a line
     * @param avoiding labels that should keep clear of the line
     */
    static String path(int points, IntToDoubleFunction x, IntToDoubleFunction y, double breakAt_px, Labels avoiding) {
        Polyline line = new Polyline(breakAt_px, avoiding);
        int i = 0;
        while (i < points) {
            double column = Math.floor(x.applyAsDouble(i));
            int first = i;
            int least = i;
            int greatest = i;
            double least_y = y.applyAsDouble(i);
            double greatest_y = least_y;
            boolean whole = true;
            for (i++; i < points && whole; i++) {
                double here = x.applyAsDouble(i);
                whole = Math.floor(here) == column;
                if (!whole) {
                    break;
                }
                double value = y.applyAsDouble(i);
                if (value < least_y) {
                    least = i;
                    least_y = value;
                } else if (value > greatest_y) {
                    greatest = i;
                    greatest_y = value;
                }
            }
            int last = i - 1;
            for (int point : new int[] {first, Math.min(least, greatest), Math.max(least, greatest), last}) {
                line.to(x.applyAsDouble(point), y.applyAsDouble(point));
            }
            avoiding.keepClearOf(column, least_y, greatest_y);
        }
        return line.path.toString();
    }

    private void to(double x, double y) {
        double near = Math.max(-FAR_OFF, Math.min(FAR_OFF, y));
        if (x == lastX && near == lastY) {
            return;
        }
        path.append(x - lastX <= breakAt_px ? 'L' : 'M');
        Markup.appendPx(path, x);
        path.append(' ');
        Markup.appendPx(path, near);
        lastX = x;
        lastY = near;
    }
}
