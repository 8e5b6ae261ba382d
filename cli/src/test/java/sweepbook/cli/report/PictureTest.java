package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class PictureTest {
    private static Picture picture(double fromX, double toX, double fromY, double toY) {
        return new Picture(
                "p1",
                "A <title>",
                "What \"it\" shows & more",
                PictureAxis.of("time, s", fromX, toX),
                PictureAxis.of("reading, mm", fromY, toY),
                List.of());
    }

    private static Document parsed(String svg) throws Exception {
        return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
    }

    private static String longestPath(String svg) throws Exception {
        NodeList paths = parsed(svg).getElementsByTagName("path");
        return IntStream.range(0, paths.getLength())
                .mapToObj(i -> paths.item(i).getAttributes().getNamedItem("d").getNodeValue())
                .max(Comparator.comparingInt(String::length))
                .orElseThrow();
    }

    @Test
    void isWellFormedWhateverItsTextsHold() throws Exception {
        Document svg = parsed(picture(0, 10, -1, 1)
                .mark(5, 0, Picture.Shape.CROSS, Ink.FIRST, "<&>")
                .svg());
        assertEquals("A <title>", svg.getElementsByTagName("title").item(0).getTextContent());
    }

    @Test
    void aMillionReadingsMakeASmallPictureThatStillHoldsTheOneSpike() throws Exception {
        int n = 1_000_000;
        Random random = new Random(11);
        double[] y = random.doubles(n, -0.001, 0.001).toArray();
        y[654_321] = 0.9;
        Picture picture = picture(0, n, -1, 1).line(n, i -> i, i -> y[i], Double.POSITIVE_INFINITY, Ink.TRACE);
        String svg = picture.svg();
        assertTrue(svg.length() < 40_000, "characters: " + svg.length());
        double spike_px = Double.POSITIVE_INFINITY;
        for (String point : longestPath(svg).substring(1).split("[LM]")) {
            spike_px = Math.min(spike_px, Double.parseDouble(point.split(" ")[1]));
        }
        assertEquals(28 + 0.05 * 230, spike_px, 0.06, "the spike's place from the top, in pixels");
    }
}
