package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class TurnTest {
    /** Law: a parabola of few readings has its top where it is, wherever the readings lie, upright and turned over. */
    @Property
    void aTopBetweenReadingsIsThatOfTheParabola(@ForAll @DoubleRange(min = -0.5, max = 0.5) double off) {
        double[] line = new double[7];
        Arrays.setAll(line, i -> 5 - 40 * (i - 3 - off) * (i - 3 - off));
        double[] turned = Arrays.stream(line).map(v -> -v).toArray();
        assertEquals(5, only(line).level_mm(), 1e-9);
        assertEquals(-5, only(turned).level_mm(), 1e-9);
    }

    /** Law: what comes to rest after a jump has no higher top. */
    @Test
    void aRestAfterAJumpIsNoHigher() {
        assertEquals(
                2,
                only(new double[] {-300, -300, -200, 2, 1, 1, 1, 1, -30, -60}).level_mm());
    }

    /** Law: where neighbours differ by no more than noise, the top is the line's. */
    @Test
    void aTopOfManyReadingsIsTheLines() {
        double[] line = new double[100];
        Arrays.setAll(line, i -> 5 - 0.01 * (i - 50.3) * (i - 50.3));
        assertEquals(line[50], only(line).level_mm());
    }

    private static Turn only(double[] line) {
        List<Turn> turns = Turn.in(line, 0, line.length, 10);
        assertEquals(1, turns.size(), turns::toString);
        return turns.get(0);
    }
}
