package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class MarkupTest {
    @Test
    void textAndAttributesAreEscaped() {
        assertEquals(
                "<b title=\"&quot;&gt;&lt;script&gt;\">Nut &amp; bolt &lt;/b&gt;</b>",
                new Markup()
                        .element("b", "Nut & bolt </b>", "title", "\"><script>")
                        .toString());
    }

    @Test
    void charactersThatHideOrReorderTextAreWrittenOut() {
        assertEquals(
                "17.0[U+202E]49[U+0000][U+001B][U+D800] \u00e9 \ud83d\udd27",
                new Markup()
                        .text("17.0\u202e49\u0000\u001b\ud800 \u00e9 \ud83d\udd27")
                        .toString());
    }

    @Test
    void placesHaveATenthOfAPixel() {
        assertEquals(
                "<rect x=\"12.3\" y=\"-0.5\" width=\"7\" />\n",
                new Markup().empty("rect", "x", 12.34, "y", -0.49, "width", 7.0).toString());
    }

    @Test
    void anElementLeftOpenIsAFaultOfOurs() {
        Markup open = new Markup().open("p");
        assertThrows(IllegalStateException.class, open::toString);
    }
}
