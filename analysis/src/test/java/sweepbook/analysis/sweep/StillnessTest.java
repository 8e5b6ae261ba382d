package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class StillnessTest {
    private static final double Q_mm = 0.001;

    /** When it is said to be stable, in seconds; infinite where it is not within the time. */
    private static double stable_s(
            double rate_per_s, double noise, double lasts_s, long seed, DoubleUnaryOperator steps) {
        Random random = new Random(seed);
        Stillness still = new Stillness(Q_mm);
        for (int i = 0; i < lasts_s * rate_per_s; i++) {
            double time_s = i / rate_per_s;
            still.add(time_s, Q_mm * Math.rint(steps.applyAsDouble(time_s) + noise * random.nextGaussian()));
            if (!Double.isNaN(still.standsFrom_s())) {
                return time_s;
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    /** Simulated truth: of sixty creeps of one and a quarter steps in five seconds, watched for twelve, one may look still by chance. */
    @ParameterizedTest
    @ValueSource(doubles = {4, 15, 60, 2000})
    void hardlyAnythingIsStableWhileItCreeps(double rate_per_s) {
        List<String> stable = new ArrayList<>();
        for (long seed = 0; seed < 20; seed++) {
            for (double noise : new double[] {0.05, 0.3, 0.8}) {
                double at_s = stable_s(rate_per_s, noise, 12, seed, t -> 0.25 * t);
                if (at_s < Double.POSITIVE_INFINITY) {
                    stable.add("noise " + noise + " steps, seed " + seed + ", after " + at_s + " s");
                }
            }
        }
        assertTrue(stable.size() <= 1, stable.toString());
    }

    /** Simulated truth: as soon as the mean is known to a tenth of a step, and some seconds' creep can be told apart. */
    @ParameterizedTest
    @ValueSource(doubles = {10, 60, 2000})
    void aRestIsStableSoonAfterItsLevelIsKnown(double rate_per_s) {
        for (long seed = 0; seed < 20; seed++) {
            double needed_s = Math.max(1, (0.25 + 1.0 / 12) / 0.01 / rate_per_s);
            double at_s = stable_s(rate_per_s, 0.5, 20, seed, t -> 0.3);
            assertTrue(at_s <= needed_s + 4, "after " + at_s + " s, seed " + seed);
        }
    }

    /** Law: what creeps by more than a step in five seconds goes over an edge between digits within five. */
    @ParameterizedTest
    @ValueSource(doubles = {2, 20, 500})
    void aNeedleOnOneDigitIsStableWhenACreepWouldHaveShown(double rate_per_s) {
        double at_s = stable_s(rate_per_s, 0, 20, 1, t -> 0.1);
        assertTrue(at_s >= 4.4 && at_s <= 5.5, "after " + at_s + " s");
    }

    /** Simulated truth: a needle that goes to and fro over an edge all the time stands near it. */
    @ParameterizedTest
    @ValueSource(doubles = {60, 500})
    void aNeedleBetweenTwoDigitsIsStableSooner(double rate_per_s) {
        for (long seed = 0; seed < 20; seed++) {
            double at_s = stable_s(rate_per_s, 0.1, 20, seed, t -> 0.5);
            assertTrue(at_s <= 4, "after " + at_s + " s, seed " + seed);
        }
    }

    /** Simulated truth: a display that shows each value four times, noise of a step, is no motion. */
    @Test
    void aSlowDisplayIsStable() {
        for (long seed = 0; seed < 20; seed++) {
            Random random = new Random(seed);
            Stillness still = new Stillness(Q_mm);
            double shown_mm = 0;
            int i = 0;
            for (; i < 20 * 60 && Double.isNaN(still.standsFrom_s()); i++) {
                shown_mm = i % 4 == 0 ? Q_mm * Math.rint(random.nextGaussian()) : shown_mm;
                still.add(i / 60.0, shown_mm);
            }
            assertTrue(i < 15 * 60, "seed " + seed);
        }
    }

    /** Simulated truth: sweeps to and fro, ten steps high and nine seconds long, are no rest, though their line has no slope. */
    @Test
    void sweepsAboutOneMiddleAreNoRest() {
        for (long seed = 0; seed < 20; seed++) {
            double at_s = stable_s(120, 0.45, 36, seed, t -> 5 * Math.cos(2 * Math.PI * t / 9 + 1));
            assertTrue(at_s == Double.POSITIVE_INFINITY, "after " + at_s + " s, seed " + seed);
        }
    }

    /** Simulated truth: at rest, then a click by one digit, which the rest still holds, and a creep back by two steps in five seconds. */
    @Test
    void aCreepBackFromAClickByOneDigitIsNoRest() {
        int stable = 0;
        for (long seed = 0; seed < 40; seed++) {
            Random random = new Random(seed);
            double rest = random.nextDouble();
            double noise = 0.03 + 0.12 * random.nextDouble();
            Stillness still = new Stillness(Q_mm);
            boolean stands = false;
            for (int i = 0; i < 10 * 30; i++) {
                double time_s = i / 30.0;
                double level = time_s < 4 ? rest : rest - 1 + 0.4 * (time_s - 4);
                still.add(time_s, Q_mm * Math.rint(level + noise * random.nextGaussian()));
                stands |= time_s > 4.5 && !Double.isNaN(still.standsFrom_s());
            }
            stable += stands ? 1 : 0;
        }
        assertTrue(stable <= 1, stable + " of 40");
    }

    /** Simulated truth: after six seconds at rest two clicks of a step, so small that the rest goes on, and a creep back through its level. */
    @Test
    void aCreepBackThroughTheRestBeforeIsNoRest() {
        int stable = 0;
        for (long seed = 0; seed < 40; seed++) {
            Random random = new Random(seed);
            Stillness still = new Stillness(Q_mm);
            boolean stands = false;
            for (int i = 0; i < 10 * 30; i++) {
                double time_s = i / 30.0;
                double level = time_s < 6 ? 0 : time_s < 6.3 ? 1.3 : 2.6 - 3.7 * Math.log(1 + (time_s - 6.3) / 1.9);
                still.add(time_s, Q_mm * Math.rint(level + 0.5 * random.nextGaussian()));
                stands |= time_s > 7 && !Double.isNaN(still.standsFrom_s());
            }
            stable += stands ? 1 : 0;
        }
        assertTrue(stable <= 1, stable + " of 40");
    }
}
