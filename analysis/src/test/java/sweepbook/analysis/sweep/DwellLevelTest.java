package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.published.Published;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

class DwellLevelTest {
    private static final double STEP_s = 0.1;

    private static Finding<DwellLevel.Level> settled(
            double q_mm, double noise_mm, LengthUnit unit, double... readings_mm) {
        double[] time_s = new double[readings_mm.length];
        Arrays.setAll(time_s, i -> i * STEP_s);
        CleanTrace trace = CleanTrace.of(time_s, readings_mm, 1, q_mm);
        return new DwellLevel(trace, new LengthWords(unit, q_mm), noise_mm).settled(0, readings_mm.length);
    }

    private static Estimate level(double q_mm, double noise_mm, double... readings_mm) {
        return settled(q_mm, noise_mm, LengthUnit.MM, readings_mm)
                .asOptional()
                .orElseThrow()
                .level();
    }

    /** Published: GUM F.2.2.1, a display step spreads evenly, u = q / sqrt(12). */
    @Test
    void aNeedleOnOneDigitIsSpreadEvenlyOverIt() {
        double[] readings = new double[60];
        Arrays.fill(readings, 0.12);
        Estimate level = level(0.01, 0.0005, readings);
        assertEquals(0.12, level.value(), 1e-9);
        assertEquals(0.01 / Math.sqrt(12), level.stdU(), 0.08 * 0.01 / Math.sqrt(12));
        assertEquals(0.95 * 0.005, level.u95(), 1e-6);
    }

    /** Law: a reading that is off by far tells nothing of the digit on which the needle stands. */
    @Test
    void aSpikeTellsNothingOfTheDigit() {
        double[] readings = new double[60];
        Arrays.fill(readings, 0.12);
        readings[30] = 3.41;
        Estimate level = level(0.01, 0.0005, readings);
        assertEquals(0.12, level.value(), 1e-9);
        assertEquals(0.95 * 0.005, level.u95(), 1e-6);
    }

    /** Simulated truth: the reading came down by a few steps, and then goes up for as long: its middle is no level on which it ends. */
    @Test
    void whatEndsElsewhereIsNoLevel() {
        int given = 0;
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(seed);
            double[] readings = new double[100];
            Arrays.setAll(readings, i -> {
                double level = i < 50 ? -0.06 * i : -3 + 0.2 * (i - 50);
                return 0.01 * Math.rint(level + 0.7 * random.nextGaussian());
            });
            given += settled(0.01, 0.007, LengthUnit.MM, readings).isFound() ? 1 : 0;
        }
        assertEquals(0, given);
    }

    /** Simulated truth: the contact is backed off while the trace goes on; what it moves is no noise of the level before. */
    @Test
    void aRetractionIsNoPartOfARest() {
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(seed);
            int rest = 15 + random.nextInt(50);
            double back = 0.5 + 5 * random.nextDouble();
            double[] readings = new double[rest + 30];
            Arrays.setAll(
                    readings,
                    i -> 0.001 * Math.rint(1.5 - back * Math.max(0, i - rest) + 0.25 * random.nextGaussian()));
            assertFalse(settled(0.001, 0.00025, LengthUnit.MM, readings).isFound(), "seed " + seed);
        }
    }

    /** Published: NIST StRD; a drift of neighbours so alike makes s / sqrt(n) several times too small, large offsets lose nothing. */
    @Test
    void meansAreThoseOfNist() {
        Published nist = Published.source("nist-spread.txt");
        double[] mavro = DoubleStream.of(nist.data("mavro_1e-5_above_2"))
                .map(v -> 2 + v * 1e-5)
                .toArray();
        CleanTrace trace = CleanTrace.of(evenTimes(mavro.length), mavro, 1, 1e-4);
        Estimate drifting = new DwellLevel(trace, new LengthWords(LengthUnit.MM, 1e-4), 4e-4)
                .all(0, mavro.length)
                .level();
        assertEquals(2.001856, drifting.value(), 1e-6);
        assertTrue(drifting.stdU() > 2.5 * 0.429123454003053e-3 / Math.sqrt(50), drifting.toString());

        double[] pair = nist.data("numacc4_first_pair");
        DoubleStream pairs = Stream.generate(() -> pair).limit(500).flatMapToDouble(p -> DoubleStream.of(p[1], p[2]));
        double[] all = DoubleStream.concat(DoubleStream.of(pair[0]), pairs).toArray();
        assertEquals(10000000.2, level(0.1, 0.1, all).value(), 1e-6);
    }

    private static double[] evenTimes(int n) {
        double[] time_s = new double[n];
        Arrays.setAll(time_s, i -> i * STEP_s);
        return time_s;
    }

    /** Simulated truth: U95 covers where the display hides the noise, and is told neither too large nor too small. */
    @Test
    void hiddenNoiseIsAllowedFor() {
        int covered = 0;
        int trials = 400;
        for (int seed = 0; seed < trials; seed++) {
            Random random = new Random(seed * 7919L + 5);
            double truth = random.nextDouble();
            double noise = 0.04 * Math.pow(8, random.nextDouble());
            double[] readings = new double[30 + random.nextInt(200)];
            Arrays.setAll(readings, i -> Math.rint(truth + noise * random.nextGaussian()));
            Estimate level = level(1, Math.max(noise, 0.15), readings);
            covered += Math.abs(level.value() - truth) <= level.u95() ? 1 : 0;
        }
        assertTrue(covered >= 0.93 * trials, covered + " of " + trials + ", seeds 0 to " + (trials - 1));
    }

    @Test
    void aCreepIsToldWithItsRateInTheUnitOfTheTrace() {
        double q_mm = 0.00127;
        Random random = new Random(3);
        double[] readings = new double[70];
        Arrays.setAll(readings, i -> q_mm * Math.rint(0.08 * i + 0.5 * random.nextGaussian()));
        Finding<DwellLevel.Level> none = settled(q_mm, 0.5 * q_mm, LengthUnit.IN, readings);
        assertFalse(none.isFound());
        String reason = ((Finding.NotDetermined<DwellLevel.Level>) none).reason();
        // Four steps of 0.00005 in.
        assertTrue(reason.matches("the reading still creeps by 0\\.000(1[5-9]|2[0-5]).* in in five seconds.*"), reason);
    }

    /** Simulated truth: the end of a creep that goes on by more than a step in five seconds is no level, however level it looks. */
    @Test
    void theEndOfACreepIsNoLevel() {
        double tau_s = 12;
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(seed);
            double[] readings = new double[30];
            Arrays.setAll(
                    readings, i -> 0.001 * Math.rint(25 * Math.exp(-i * STEP_s / tau_s) + 0.8 * random.nextGaussian()));
            assertFalse(settled(0.001, 0.0008, LengthUnit.MM, readings).isFound(), "seed " + seed);
        }
    }

    /** Simulated truth: a creep that is plainly seen is no level where it comes out just below the limit. */
    @Test
    void aCreepAboutTheLimitIsNoLevel() {
        int given = 0;
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(seed);
            double[] readings = new double[80];
            Arrays.setAll(readings, i -> 0.001 * Math.rint(0.21 * i * STEP_s + 0.5 * random.nextGaussian()));
            given += settled(0.001, 0.0005, LengthUnit.MM, readings).isFound() ? 1 : 0;
        }
        assertTrue(given <= 12, given + " of 100");
    }

    /** Law: how many spikes there are tells nothing of a noise that the display hides, nor of the level then. */
    @Test
    void spikesTellNothingOfALevel() {
        double[] calm = new double[400];
        Arrays.setAll(calm, i -> i % 4 == 0 ? 0 : 1);
        double[] spiky = calm.clone();
        for (int i = 5; i < spiky.length; i += 20) {
            spiky[i] = 400;
        }
        Estimate without = level(1, 0.3, calm);
        Estimate with = level(1, 0.3, spiky);
        assertEquals(without.value(), with.value(), 0.02);
        assertEquals(without.stdU(), with.stdU(), 0.3 * without.stdU());
    }

    /** Simulated truth: the stand settles slowly from the level of the click before, which the stretch begins with. */
    @Test
    void whatSettlesFromTheClickBeforeIsCovered() {
        int covered = 0;
        int trials = 200;
        for (int seed = 0; seed < trials; seed++) {
            Random random = new Random(seed);
            double[] readings = new double[120];
            Arrays.setAll(readings, i -> {
                double since_s = i * STEP_s - 1.25;
                return Math.rint(0.34 - (since_s < 0 ? 5 : 5 * Math.exp(-since_s / 0.8)) + 0.5 * random.nextGaussian());
            });
            Estimate level = level(1, 0.5, readings);
            covered += Math.abs(level.value() - 0.34) <= level.u95() ? 1 : 0;
        }
        assertTrue(covered >= 0.92 * trials, covered + " of " + trials);
    }

    /** Simulated truth: what settles within the first seconds does not pull the level. */
    @Test
    void theSettlingAfterAJogIsLeftOut() {
        for (int seed = 0; seed < 20; seed++) {
            Random random = new Random(seed);
            double[] readings = new double[80];
            Arrays.setAll(
                    readings, i -> 0.001 * Math.rint(6 * Math.exp(-i * STEP_s / 0.5) + 0.6 * random.nextGaussian()));
            assertEquals(0, level(0.001, 0.0006, readings).value(), 0.0004, "seed " + seed);
        }
    }

    /** Simulated truth: what is left of a settling is part of what the level is not known to; and it moves a level little where there is none. */
    @Test
    void whatIsLeftOfASettlingIsAllowedFor() {
        assertCovers(1, 5, 1000);
        assertCovers(0, 0, 5000);
    }

    /** Simulated truth: clicks that noise hides mostly keep no zero back where the reading has stood for some seconds since. */
    @Test
    void hiddenClicksBeforeTheRestKeepNoZeroBack() {
        int given = 0;
        int covered = 0;
        int trials = 300;
        for (int seed = 0; seed < trials; seed++) {
            Random random = new Random(seed);
            double[] readings = new double[70];
            Arrays.setAll(readings, i -> Math.rint(Math.min(0, i / 5 - 5) + 2 * random.nextGaussian()));
            Finding<DwellLevel.Level> found = settled(1, 2, LengthUnit.MM, readings);
            if (found.isFound()) {
                Estimate level = found.asOptional().orElseThrow().level();
                given++;
                covered += Math.abs(level.value()) <= level.u95() ? 1 : 0;
            }
        }
        assertTrue(given >= 0.65 * trials, given + " of " + trials);
        assertTrue(covered >= 0.93 * given, covered + " of " + given);
    }

    /** Settlings of an even size within +-most and times of 0.15 to 0.9 s, in steps, under noise of 0.7; a zero is given of nearly all. */
    private static void assertCovers(double fewest, double most, long first) {
        int given = 0;
        int covered = 0;
        int trials = 600;
        for (int seed = 0; seed < trials; seed++) {
            Random random = new Random(first + seed);
            double size = (random.nextBoolean() ? 1 : -1) * (fewest + (most - fewest) * random.nextDouble());
            double tau_s = 0.15 + 0.75 * random.nextDouble();
            double truth = random.nextDouble();
            double[] readings = new double[45 + random.nextInt(40)];
            Arrays.setAll(
                    readings,
                    i -> Math.rint(truth + size * Math.exp(-i * STEP_s / tau_s) + 0.7 * random.nextGaussian()));
            Finding<DwellLevel.Level> found = settled(1, 0.7, LengthUnit.MM, readings);
            if (found.isFound()) {
                Estimate level = found.asOptional().orElseThrow().level();
                given++;
                covered += Math.abs(level.value() - truth) <= level.u95() ? 1 : 0;
            }
        }
        assertTrue(given >= 0.95 * trials, given + " of " + trials + ", seeds from " + first);
        assertTrue(covered >= 0.93 * given, covered + " of " + given + ", seeds from " + first);
    }
}
