package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;
import org.jline.utils.AttributedString;
import org.jline.utils.AttributedStyle;

/** The foot of the screen: reading and cue in letters that grow with the window, the rest in lines below. */
final class Foot {
    /**
     * In a window of so many lines that fills a laptop's screen (174 mm high) letters are 14 mm tall if a dot's column is
     * one wide: 16' of arc at three metres, the least that is legible (ISO 9241-303, from memory).
     */
    private static final int MOST_LINES_A_SCALE = 31;

    private static final int MARGIN = 2;

    private Foot() {}

    static List<AttributedString> of(LiveView view, int width, int height) {
        List<AttributedString> rows = new ArrayList<>();
        for (String row : large(view, width, height)) {
            rows.add(new AttributedString(" ".repeat(MARGIN) + row, AttributedStyle.BOLD));
        }
        for (String row : Wrapping.wrap(" ".repeat(MARGIN) + view.state(), width)) {
            rows.add(new AttributedString(row, AttributedStyle.BOLD));
        }
        rows.add(new AttributedString(" ".repeat(MARGIN) + view.found()));
        rows.add(new AttributedString(" ".repeat(MARGIN) + view.health(), AttributedStyle.DEFAULT.faint()));
        return rows;
    }

    /** In a window that is too narrow for both the reading stands alone. */
    private static List<String> large(LiveView view, int width, int height) {
        String both = view.reading() + " " + view.cue().word();
        int fits = (width - MARGIN) / BigText.width(both);
        int legible = (height + MOST_LINES_A_SCALE - 1) / MOST_LINES_A_SCALE;
        return fits < 1 ? BigText.of(view.reading(), 1) : BigText.of(both, Math.max(1, Math.min(fits, legible)));
    }
}
