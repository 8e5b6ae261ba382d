package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class HighSpotFiguresTest {
    private static final Path DOCS = Path.of("..", "analysis", "docs");

    @Test
    void everyFigureOfTheDocsCanBeDrawnAndIsShown() throws Exception {
        String page = Files.readString(DOCS.resolve("high-spot.md")) + Files.readString(DOCS.resolve("stable-zero.md"));
        var drawn = HighSpotFigures.drawn(1);
        drawn.forEach((name, svg) -> {
            assertTrue(svg.contains("<svg"), name);
            assertTrue(page.contains("](" + name + ")"), name + " is not on the page");
            assertTrue(Files.exists(DOCS.resolve(name)), name + " is not in the folder");
        });
        assertEquals(5, drawn.size());
    }
}
