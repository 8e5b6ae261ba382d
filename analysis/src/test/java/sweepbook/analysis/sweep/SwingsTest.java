package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** A stand that rings after it was touched; a hundred readings a second in steps of the display. */
class SwingsTest {
    private static final double LEAST = 2.5;

    private static int count(DoubleUnaryOperator reading) {
        double[] time_s = IntStream.range(0, 1200).mapToDouble(i -> i / 100.0).toArray();
        double[] line = IntStream.range(0, time_s.length)
                .mapToDouble(i -> Math.rint(reading.applyAsDouble(time_s[i])))
                .toArray();
        List<Turn> turns = Turn.in(line, 0, line.length, LEAST);
        return Swings.count(turns, time_s, LEAST);
    }

    /** Three times a second, 20 steps at first and a third of that after a second: after 14 turns, at 2.4 s, it swings by less than 2.5. */
    private static double rings(double t) {
        return 20 * Math.exp(-1.1 * t) * Math.cos(6 * Math.PI * t);
    }

    private static double sweeps(double t) {
        return t < 3 ? 0 : -40 * (1 - Math.cos(2 * Math.PI * (t - 3) / 3)) / 2;
    }

    @Test
    void areTheFirstTurnsOfATouchThatIsSweptLater() {
        assertEquals(14, count(t -> rings(t) + sweeps(t)));
    }

    @Test
    void areNoneWhereTheHandSweepsAtOnce() {
        assertEquals(0, count(t -> sweeps(t + 3)));
    }

    @Test
    void areNoneWhereTheyGrow() {
        assertEquals(0, count(t -> (t < 2 ? rings(2 - t) : 0) + sweeps(t)));
    }

    /** A drive may sweep so fast, and there is nothing else to go by. */
    @Test
    void areNoneWhereNothingElseMoves() {
        assertEquals(0, count(SwingsTest::rings));
    }
}
