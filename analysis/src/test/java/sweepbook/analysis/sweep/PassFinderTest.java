package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Laws of how well a trace makes sense with pressing upwards; readings count in steps of the display. */
class PassFinderTest {
    private static final double CREST = 100;

    @Test
    void likesAStopNearTheCrestsBetterThanOneFarFromThem() {
        assertTrue(swept(99).score() > swept(90).score() + 0.3);
    }

    /** A stand just touched swings while the plunger is free; then pressing lowers the reading. */
    @Test
    void doesNotTakeASwingForASweepWhereTheHandSweptOnAfterIt() {
        CleanTrace raised = trace(
                32,
                t -> t < 4
                        ? 300 + 5 * Math.cos(2 * Math.PI * 2 * t)
                        : t < 8 ? 300 : t < 9 ? 300 - 100 * (t - 8) : 200 - 0.3 * sweep(t - 9, 99));
        assertTrue(finder(raised.turnedOver()).score() > finder(raised).score() + 2);
    }

    private static PassFinder swept(double stop) {
        return finder(trace(20, t -> sweep(t, stop)));
    }

    /** Three passes of 4 s, each with a crest in the middle, then a stop. */
    private static double sweep(double t, double stop) {
        double fromTurn = 1 - Math.abs(t % 4 - 2) / 2;
        return t < 12 ? CREST * (1 - (1 - fromTurn) * (1 - fromTurn)) : t < 13 ? stop * (t - 12) : stop;
    }

    private static CleanTrace trace(double duration_s, DoubleUnaryOperator reading) {
        double[] time_s = IntStream.range(0, (int) (20 * duration_s))
                .mapToDouble(i -> i / 20.0)
                .toArray();
        double[] readings = IntStream.range(0, time_s.length)
                .mapToDouble(i -> Math.rint(reading.applyAsDouble(time_s[i]) + 0.3 * Math.sin(7.7 * i)))
                .toArray();
        return CleanTrace.of(time_s, readings, 1, 1);
    }

    private static PassFinder finder(CleanTrace trace) {
        return new PassFinder(trace, Double.NaN);
    }
}
