package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class LabelsProperties {
    private static final double WIDTH = 400;
    private static final double HEIGHT = 220;

    record Request(String text, double x, double y) {}

    private record Placed(double x, double y, double width) {
        boolean hides(Placed other) {
            return Math.abs(x - other.x) < (width + other.width) / 2 && Math.abs(y - other.y) < Labels.FONT_PX;
        }
    }

    @Provide
    Arbitrary<List<Request>> requests() {
        Arbitrary<Request> one = Combinators.combine(
                        Arbitraries.integers().between(1, 20),
                        Arbitraries.doubles().between(0, WIDTH),
                        Arbitraries.doubles().between(0, HEIGHT))
                .as((length, x, y) -> new Request("8".repeat(length), x, y));
        return one.list().ofMinSize(1).ofMaxSize(6);
    }

    /** Law: where there is room for all, no text hides another and none leaves the picture. */
    @Property(tries = 500)
    void textsKeepOutOfEachOthersWay(@ForAll("requests") List<Request> requests) {
        Labels labels = new Labels(0, 0, WIDTH, HEIGHT);
        requests.forEach(request -> labels.add(request.text(), request.x(), request.y(), Ink.FIRST));
        Markup svg = new Markup();
        labels.draw(svg);
        List<Placed> placed = new ArrayList<>();
        Pattern.compile("<text x=\"(-?[0-9.]+)\" y=\"(-?[0-9.]+)\"[^>]*>(8+)</text>")
                .matcher(svg.toString())
                .results()
                .forEach(m -> placed.add(new Placed(
                        Double.parseDouble(m.group(1)), Double.parseDouble(m.group(2)), Labels.width_px(m.group(3)))));
        assertEquals(requests.size(), placed.size());
        for (int i = 0; i < placed.size(); i++) {
            Placed one = placed.get(i);
            assertTrue(one.x - one.width / 2 >= 0 && one.x + one.width / 2 <= WIDTH, one::toString);
            assertTrue(one.y >= Labels.FONT_PX - 2 && one.y <= HEIGHT, one::toString);
            for (int j = 0; j < i; j++) {
                Placed other = placed.get(j);
                assertTrue(!one.hides(other), () -> one + " hides " + other);
            }
        }
    }
}
