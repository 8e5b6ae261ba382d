package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.IntRange;

class WrappingProperties {
    /** Law: no word is lost, broken or moved, and a row is too long only where one word is. */
    @Property(tries = 300)
    void wordsStayWholeAndInOrder(
            @ForAll @Chars(' ') @CharRange(from = 'a', to = 'c') String line, @ForAll @IntRange(max = 90) int width) {
        List<String> rows = Wrapping.wrap(line, width);
        assertEquals(words(line), words(String.join(" ", rows)));
        if (width >= 30) {
            assertTrue(
                    rows.stream()
                            .allMatch(row -> row.length() <= width || words(row).size() <= 1),
                    rows::toString);
        }
    }

    @Example
    void laterRowsStandFurtherIn() {
        assertEquals(
                List.of("   Then:   sweep along Y a few", "       times, hold still."),
                Wrapping.wrap("   Then:   sweep along Y a few times, hold still.", 32));
    }

    private static List<String> words(String text) {
        return List.of(text.strip().split(" +"));
    }
}
