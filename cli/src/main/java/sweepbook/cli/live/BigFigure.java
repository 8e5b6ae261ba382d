package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;

/** A number in letters tall enough to be read from across a machine; three lines of block characters. */
final class BigFigure {
    private static final String SIGNS = "0123456789.+- ";

    /** Three by five dots a digit, two rows of dots to a line of half blocks; the last half line is empty. */
    private static final String[] DOTS = {
        "### ..# ### ### #.# ### ### ### ### ### . ... ... ...",
        "#.# ..# ..# ..# #.# #.. #.. ..# #.# #.# . .#. ... ...",
        "#.# ..# ### ### ### ### ### ..# ### ### . ### ### ...",
        "#.# ..# #.. ..# ..# ..# #.# ..# #.# ..# . .#. ... ...",
        "### ..# ### ### ..# ### ### ..# ### ### # ... ... ...",
        "... ... ... ... ... ... ... ... ... ... . ... ... ...",
    };

    private BigFigure() {}

    /** The lines of the text; what is no digit, point or sign comes out as a gap. */
    static List<String> of(String text) {
        List<String> lines = new ArrayList<>();
        for (int row = 0; row < DOTS.length; row += 2) {
            String[] upper = DOTS[row].split(" ");
            String[] lower = DOTS[row + 1].split(" ");
            StringBuilder line = new StringBuilder();
            for (char c : text.toCharArray()) {
                int sign = Math.max(SIGNS.indexOf(c), -1);
                int at = sign < 0 ? SIGNS.length() - 1 : sign;
                for (int i = 0; i < upper[at].length(); i++) {
                    line.append(block(upper[at].charAt(i) == '#', lower[at].charAt(i) == '#'));
                }
                line.append(' ');
            }
            lines.add(line.toString());
        }
        return lines;
    }

    private static char block(boolean upper, boolean lower) {
        if (upper) {
            return lower ? '\u2588' : '\u2580';
        }
        return lower ? '\u2584' : ' ';
    }
}
