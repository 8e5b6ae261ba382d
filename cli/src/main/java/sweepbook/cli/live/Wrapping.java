package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;

/** Breaks lines between words. */
public final class Wrapping {
    private static final String DEEPER = "    ";

    /** Below it a window is too narrow for words, or nobody knows how wide it is. */
    private static final int NARROWEST = 30;

    private Wrapping() {}

    /** The line as lines no longer than the width, the second and later ones further in; longer words stay whole. */
    public static List<String> wrap(String line, int width) {
        List<String> rows = new ArrayList<>();
        String rest = line;
        String indent = " ".repeat(line.length() - line.stripLeading().length()) + DEEPER;
        while (width >= NARROWEST && rest.length() > width) {
            int from = rows.isEmpty() ? indent.length() - DEEPER.length() : indent.length();
            int blank = rest.lastIndexOf(' ', width);
            if (blank <= from) {
                blank = rest.indexOf(' ', Math.max(from, width));
            }
            if (blank < 0) {
                break;
            }
            rows.add(rest.substring(0, blank).stripTrailing());
            rest = indent + rest.substring(blank).stripLeading();
        }
        rows.add(rest);
        return rows;
    }
}
