package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Collectors;
import org.jline.utils.AttributedString;
import org.junit.jupiter.api.Test;

class FootTest {
    private static final LiveView VIEW = new LiveView("-0.07", Cue.of("TYPE X"), "stable", 3, "3 passes", "25/s");

    @Test
    void readingAndCueStandSideBySideInLargeLetters() {
        assertEquals(
                List.of(
                        "      █▀█   █▀█ ▀▀█     ▀█▀ █ █ █▀█ █▀▀     █ █ ",
                        "  ▀▀▀ █ █   █ █   █      █  ▀█▀ █▀▀ █▀      ▄▀▄ ",
                        "      ▀▀▀ ▀ ▀▀▀   ▀      ▀   ▀  ▀   ▀▀▀     ▀ ▀ ",
                        "  stable",
                        "  3 passes",
                        "  25/s"),
                rows(80, 24));
    }

    /**
     * ISO 9241-303 (from memory): letters of at least 16' of arc. A laptop's screen is 174 mm high; three metres away that
     * is 14 mm of it, whatever the number of lines that the window is divided into.
     */
    @Test
    void lettersAreLegibleThreeMetresAwayInAWindowOfAnyHeight() {
        double least_mm = 3000 * Math.tan(Math.toRadians(16 / 60.0));
        for (int height = 20; height <= 80; height++) {
            // A digit is five half lines high, or a multiple of that.
            double lines = Math.floor((rows(300, height).size() - 3) / 2.5) * 2.5;
            assertTrue(lines / height * 174 >= least_mm, height + " lines");
        }
    }

    @Test
    void noRowIsWiderThanTheWindow() {
        for (int width = 30; width <= 200; width++) {
            int limit = width;
            rows(width, 60).forEach(row -> assertTrue(row.length() <= limit, row));
        }
    }

    @Test
    void inANarrowWindowTheReadingStandsAlone() {
        assertEquals("  ▀▀▀ █ █   █ █   █ ", rows(40, 24).get(1));
    }

    @Test
    void whatIsLongerThanARowGoesOnInTheNext() {
        LiveView view = new LiveView(
                "-0.07", Cue.of("GO ON"), "stable, but " + "word ".repeat(20).strip(), 3, "", "");
        String words = Foot.of(view, 60, 24).stream()
                .skip(3)
                .map(row -> row.toString().strip())
                .collect(Collectors.joining(" "));
        assertTrue(words.startsWith(view.state()), words);
    }

    @Test
    void everySignOfACueHasAShape() {
        for (char c = 'A'; c <= 'Z'; c++) {
            assertFalse(String.join("", BigText.of(String.valueOf(c), 1)).isBlank(), "no shape for " + c);
        }
    }

    private static List<String> rows(int width, int height) {
        return Foot.of(VIEW, width, height).stream()
                .map(AttributedString::toString)
                .toList();
    }
}
