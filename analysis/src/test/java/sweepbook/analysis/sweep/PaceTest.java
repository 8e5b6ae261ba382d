package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** The true times are those that the readings are made with. */
class PaceTest {
    private static final double TOGETHER_s = 0.0005;

    /** Common practice: the latency timer of a serial adapter is 16 ms, or a multiple of it. */
    @Test
    void takesReadingsOfOneTickApart() {
        double[] true_s = every(0.0124, 900, i -> true);
        assertRestored(true_s, behindTimer(true_s, 0.032), 0.0006);
    }

    @Test
    void seesATimerThatIsQuickBesideThePace() {
        double[] true_s = every(0.0663, 300, i -> true);
        assertRestored(true_s, behindTimer(true_s, 0.016), 0.0006);
    }

    @Test
    void takesASlowerPaceThanTheTimersForOneWithoutLosses() {
        double[] true_s = every(0.0183, 600, i -> true);
        assertRestored(true_s, behindTimer(true_s, 0.016), 0.0006);
    }

    @Test
    void countsWhatBurstsLostOnTheWay() {
        double[] true_s = every(0.0171, 900, i -> i % 170 > 11 + i / 170);
        assertRestored(true_s, behindTimer(true_s, 0.05), 0.0015);
    }

    /** A device that takes its readings when it likes has no pace: its times are the best there are. */
    @Test
    void leavesTimesThatWanderAsTheyAre() {
        Random random = new Random(1);
        double[] time_s = new double[600];
        for (int i = 1; i < time_s.length; i++) {
            time_s[i] = time_s[i - 1] + 0.02 + 0.06 * random.nextDouble();
        }
        assertTrue(time_s == Pace.evened(time_s));
    }

    private static double[] every(double cycle_s, int cycles, IntPredicate arrives) {
        return IntStream.range(0, cycles)
                .filter(arrives)
                .mapToDouble(i -> 0.0031 + cycle_s * i)
                .toArray();
    }

    private static double[] behindTimer(double[] true_s, double period_s) {
        DoubleUnaryOperator tick = t -> Math.ceil(t / period_s) * period_s;
        double[] late_s = Arrays.stream(true_s).map(tick).toArray();
        for (int i = 1; i < late_s.length; i++) {
            late_s[i] = Math.max(late_s[i], late_s[i - 1] + TOGETHER_s);
        }
        return late_s;
    }

    /** Up to a delay that all readings have in common. */
    private static void assertRestored(double[] true_s, double[] late_s, double within_s) {
        double[] even = Pace.evened(late_s);
        double delay = 0;
        for (int i = 0; i < even.length; i++) {
            delay += (even[i] - true_s[i]) / even.length;
        }
        for (int i = 0; i < even.length; i++) {
            assertEquals(true_s[i] + delay, even[i], within_s, "reading " + i);
        }
    }
}
