package sweepbook.cli.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/** Texts beside points of a picture, each put where it hides the least of the picture and no other text. */
final class Labels {
    static final double FONT_PX = 15;
    private static final double LINE_PX = 18;
    /** Wide enough for digits of the common sans-serif fonts; a picture cannot know which one it meets. */
    private static final double WIDTH_PER_CHARACTER_PX = 0.6 * FONT_PX;

    private static final double GAP_PX = 7;
    private static final int ROUNDS = 7;
    /** Cost of touching another text at all: more than any way round it. */
    private static final double HIDES = 1000;

    /** Sides of a point in the order in which they are liked: above, below, right, left, the four corners. */
    private static final int[] ACROSS = {0, 0, 1, -1, 1, -1, 1, -1};

    private static final int[] UP = {-1, 1, 0, 0, -1, -1, 1, 1};
    /** Places along a level, likewise. */
    private static final double[] ALONG = {0.5, 0.85, 0.15, 0.7, 0.3};

    private record Box(double x, double y, double width, double height) {
        double overlap(Box other) {
            double across = Math.min(x + width, other.x + other.width) - Math.max(x, other.x);
            double up = Math.min(y + height, other.y + other.height) - Math.max(y, other.y);
            return across > 0 && up > 0 ? across * up : 0;
        }
    }

    /** A text for any point of a level; for a single point both ends are the same. */
    private record Label(String text, double fromX, double toX, double y, Ink ink) {
        double nearestX(double x) {
            return Math.max(fromX, Math.min(toX, x));
        }
    }

    private final Box area;
    private final double[] busyFrom;
    private final double[] busyTo;
    private final List<Box> taken = new ArrayList<>();
    private final List<Label> labels = new ArrayList<>();

    /** Labels that stay inside the given area. */
    Labels(double x, double y, double width, double height) {
        area = new Box(x, y, width, height);
        busyFrom = new double[(int) Math.ceil(width) + 1];
        busyTo = new double[busyFrom.length];
        Arrays.fill(busyFrom, Double.POSITIVE_INFINITY);
        Arrays.fill(busyTo, Double.NEGATIVE_INFINITY);
    }

    static double width_px(String text) {
        return text.codePointCount(0, text.length()) * WIDTH_PER_CHARACTER_PX;
    }

    /** A line runs here: labels go elsewhere if they can. */
    void keepClearOf(double x, double fromY, double toY) {
        int column = (int) Math.floor(x - area.x);
        if (column >= 0 && column < busyFrom.length) {
            busyFrom[column] = Math.min(busyFrom[column], Math.min(fromY, toY));
            busyTo[column] = Math.max(busyTo[column], Math.max(fromY, toY));
        }
    }

    /** A mark or a straight line stands here. */
    void keepClearOfBox(double x, double y, double width, double height) {
        taken.add(new Box(x, y, width, height));
    }

    /** A text for the point. */
    void add(String text, double x, double y, Ink ink) {
        addAlong(text, x, x, y, ink);
    }

    /** A text for a level, anywhere along it. */
    void addAlong(String text, double fromX, double toX, double y, Ink ink) {
        labels.add(new Label(text, fromX, toX, y, ink));
    }

    /** Short texts choose first: they belong close to their points. */
    void draw(Markup svg) {
        labels.sort(Comparator.comparingInt(label -> label.text.length()));
        for (Label label : labels) {
            Box box = place(label);
            taken.add(box);
            double middleX = box.x + box.width / 2;
            double middleY = box.y + box.height / 2;
            double anchorX = label.nearestX(middleX);
            if (Math.abs(middleY - label.y) > 2 * LINE_PX) {
                double endY = middleY < label.y ? box.y + box.height : box.y;
                svg.empty("path", Ink.FAINT.stroke("d", line(middleX, endY, anchorX, label.y)));
            }
            text(svg, label.text, middleX, box.y + box.height - 4, "middle", label.ink.colour());
        }
    }

    private static String line(double fromX, double fromY, double toX, double toY) {
        StringBuilder path = new StringBuilder("M");
        Markup.appendPx(path, fromX);
        Markup.appendPx(path.append(' '), fromY);
        Markup.appendPx(path.append('L'), toX);
        Markup.appendPx(path.append(' '), toY);
        return path.toString();
    }

    /** A text with a white rim, so that lines behind it do not hurt it. */
    static void text(Markup svg, String text, double x, double y, String anchor, String colour) {
        svg.element(
                "text",
                text,
                "x",
                x,
                "y",
                y,
                "text-anchor",
                anchor,
                "fill",
                colour,
                "stroke",
                "#fff",
                "stroke-width",
                "3",
                "stroke-linejoin",
                "round",
                "paint-order",
                "stroke");
    }

    private Box place(Label label) {
        List<Box> near = new ArrayList<>();
        for (int round = 0; round < ROUNDS; round++) {
            double off = GAP_PX + round * LINE_PX * 0.75;
            for (double along : ALONG) {
                double x = label.fromX + along * (label.toX - label.fromX);
                for (int side = 0; side < ACROSS.length; side++) {
                    near.add(inside(beside(label.text, x, label.y, side, off)));
                }
            }
        }
        Box best = cheapest(label, near);
        return cost(best) < HIDES ? best : cheapest(label, everywhere(label.text));
    }

    /** Of two that hide as much the nearer one, then the one that is liked better. */
    private Box cheapest(Label label, List<Box> boxes) {
        Box best = boxes.get(0);
        double least = Double.POSITIVE_INFINITY;
        for (Box box : boxes) {
            double middleX = box.x + box.width / 2;
            double away = Math.hypot(middleX - label.nearestX(middleX), box.y + LINE_PX / 2 - label.y);
            double cost = cost(box) + 2 * Math.max(0, away - box.width / 2 - LINE_PX) + away / 20;
            if (cost < least - 1e-9) {
                least = cost;
                best = box;
            }
        }
        return best;
    }

    /** Where so much stands about the point that none of the places near it is free. */
    private List<Box> everywhere(String text) {
        List<Box> boxes = new ArrayList<>();
        for (double y = 0; y < area.height; y += LINE_PX / 2) {
            for (double x = 0; x < area.width; x += LINE_PX) {
                boxes.add(inside(new Box(area.x + x, area.y + y, width_px(text), LINE_PX)));
            }
        }
        return boxes;
    }

    private static Box beside(String text, double x, double y, int side, double off) {
        double width = width_px(text);
        return new Box(
                x - width / 2 + ACROSS[side] * (width / 2 + off),
                y - LINE_PX / 2 + UP[side] * (LINE_PX / 2 + off),
                width,
                LINE_PX);
    }

    private Box inside(Box box) {
        double x = Math.max(area.x + 1, Math.min(box.x, area.x + area.width - box.width - 1));
        double y = Math.max(area.y + 1, Math.min(box.y, area.y + area.height - box.height - 1));
        return new Box(x, y, box.width, box.height);
    }

    private double cost(Box box) {
        double cost = 0;
        for (Box other : taken) {
            double overlap = box.overlap(other);
            cost += overlap > 0 ? HIDES + 20 * overlap : 0;
        }
        int from = (int) Math.max(0, box.x - area.x);
        int to = (int) Math.min(busyFrom.length - 1.0, box.x + box.width - area.x);
        for (int column = from; column <= to; column++) {
            double hidden = Math.min(box.y + box.height, busyTo[column]) - Math.max(box.y, busyFrom[column]);
            cost += hidden < 0 ? 0 : 2 + hidden;
        }
        return cost;
    }
}
