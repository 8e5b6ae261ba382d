package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;

/** Signs tall enough to be read from across a machine, drawn with block characters; two rows of dots to a line. */
final class BigText {
    private static final String SIGNS = "0123456789.+- ABCDEFGHIJKLMNOPQRSTUVWXYZ";

    /** Five rows of dots a sign, the signs side by side. */
    private static final String[][] DOTS = {
        columns(
                "### ..# ### ### #.# ### ### ### ### ### . ... ... ..."
                        + " ### ##. ### ##. ### ### ### #.# # ..# #.# #.. #...# #..# ### ### ### ##. ### ### #.# #.# #...# #.# #.# ###"),
        columns(
                "#.# ..# ..# ..# #.# #.. #.. ..# #.# #.# . .#. ... ..."
                        + " #.# #.# #.. #.# #.. #.. #.. #.# # ..# #.# #.. ##.## ##.# #.# #.# #.# #.# #.. .#. #.# #.# #...# #.# #.# ..#"),
        columns(
                "#.# ..# ### ### ### ### ### ..# ### ### . ### ### ..."
                        + " ### ##. #.. #.# ##. ##. #.# ### # ..# ##. #.. #.#.# #.## #.# ### #.# ##. ### .#. #.# #.# #.#.# .#. ### .#."),
        columns(
                "#.# ..# #.. ..# ..# ..# #.# ..# #.# ..# . .#. ... ..."
                        + " #.# #.# #.. #.# #.. #.. #.# #.# # #.# #.# #.. #...# #..# #.# #.. ### #.# ..# .#. #.# #.# ##.## #.# .#. #.."),
        columns(
                "### ..# ### ### ..# ### ### ..# ### ### # ... ... ..."
                        + " #.# ##. ### ##. ### #.. ### #.# # ### #.# ### #...# #..# ### #.. ..# #.# ### .#. ### .#. #...# #.# .#. ###"),
    };

    private BigText() {}

    private static String[] columns(String row) {
        return row.split(" ");
    }

    /** How wide the text is where a dot is one column wide. */
    static int width(String text) {
        return text.chars().map(c -> dotsAcross(c) + 1).sum();
    }

    /**
     * The lines of the text; what is no digit, point, sign or capital letter comes out as a gap.
     *
     * @param scale how many columns wide a dot is
     */
    static List<String> of(String text, int scale) {
        List<String> rows = new ArrayList<>();
        for (String[] dots : DOTS) {
            StringBuilder row = new StringBuilder();
            for (char c : text.toCharArray()) {
                row.append(dots[place(c)]).append('.');
            }
            String wide = row.toString().replace("#", "#".repeat(scale)).replace(".", ".".repeat(scale));
            for (int i = 0; i < scale; i++) {
                rows.add(wide);
            }
        }
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < rows.size(); i += 2) {
            String upper = rows.get(i);
            lines.add(line(upper, i + 1 < rows.size() ? rows.get(i + 1) : ".".repeat(upper.length())));
        }
        return lines;
    }

    private static int dotsAcross(int c) {
        return DOTS[0][place(c)].length();
    }

    private static int place(int c) {
        int place = SIGNS.indexOf(c);
        return place < 0 ? SIGNS.indexOf(' ') : place;
    }

    private static String line(String upper, String lower) {
        StringBuilder line = new StringBuilder();
        for (int i = 0; i < upper.length(); i++) {
            line.append(block(upper.charAt(i) == '#', lower.charAt(i) == '#'));
        }
        return line.toString();
    }

    private static char block(boolean upper, boolean lower) {
        if (upper) {
            return lower ? '\u2588' : '\u2580';
        }
        return lower ? '\u2584' : ' ';
    }
}
