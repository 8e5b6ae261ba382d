package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Laws of how well a trace makes sense with pressing upwards; readings count in steps of the display. */
class PassFinderTest {
    private static final double CREST = 100;

    @Test
    void likesAStopNearTheCrestsBetterThanOneFarFromThem() {
        assertTrue(swept(99).odds().sum() > swept(90).odds().sum() + 0.3);
    }

    /** A stand just touched swings while the plunger is free; then pressing lowers the reading. */
    @Test
    void doesNotTakeASwingForASweepWhereTheHandSweptOnAfterIt() {
        CleanTrace raised = trace(
                32,
                t -> t < 4
                        ? 300 + 5 * Math.cos(2 * Math.PI * 2 * t)
                        : t < 8 ? 300 : t < 9 ? 300 - 100 * (t - 8) : 200 - 0.3 * sweep(t - 9, 99));
        assertTrue(
                finder(raised.turnedOver()).odds().sum() > finder(raised).odds().sum() + 2);
    }

    /** A jog far beyond the zero and back is one top more, and deeper than the passes. */
    @Test
    void findsShallowPassesBesideADeepJogThereAndBack() {
        PassFinder found = finder(trace(
                26,
                t -> t < 15
                        ? sweep(t, 99)
                        : t < 18 ? 99 + 300 * (Math.floor(t - 15) + 1) : 999 - 300 * (Math.floor(t - 18) + 1)));
        assertEquals(3, found.windows().size());
    }

    /** A stop on the crest, a jog away beyond the zero and back: it rises and falls like a pass. */
    @Test
    void takesAStopBeforeAJogAwayAndBackForNoPass() {
        PassFinder found = finder(trace(
                24,
                t -> t < 15
                        ? sweep(t, 99)
                        : 99 - 10 * (t < 20 ? Math.floor(t - 14) : Math.max(3, 24 - Math.floor(t)))));
        assertEquals(3, found.windows().size());
    }

    /** Pressing lowers the reading, and the jog goes through the level at which the hand turned: nobody stopped there. */
    @Test
    void doesNotTakeAWaitOfTheJogForAStop() {
        CleanTrace raised = trace(34, t -> {
            double swept = 60 + 40 * Math.cos(Math.PI * (t - 1.5) / 2);
            double jogged = Math.min(130, 20 + 5 * Math.floor((t - 12) * 1.25));
            return t < 1.5 ? 95 : t < 7.5 ? swept : t < 13 ? 20 : jogged;
        });
        assertTrue(
                finder(raised.turnedOver()).odds().sum() > finder(raised).odds().sum());
    }

    /** One pass in clicks and back to the crest: the hand waits at every level, that of its turn among them. */
    @Test
    void doesNotTakeAWaitOfTheSweepForAStop() {
        CleanTrace raised = trace(120, t -> {
            double clicks = t < 55 ? Math.floor(t) : Math.max(20, 110 - Math.floor(t));
            return 200 - 0.1 * (clicks - 20) * (clicks - 20);
        });
        assertTrue(
                finder(raised).odds().sum() > finder(raised.turnedOver()).odds().sum());
    }

    /** From the turn to the crest it takes a second, which no click takes, and nobody waits at the end for the next one. */
    @Test
    void doesNotTakeAStopBetweenATurnAndTheRestForAWait() {
        CleanTrace trace =
                trace(15, t -> t < 2 ? 0 : t < 3 ? 40 * (t - 2) : t < 5 ? 40 : t < 5.2 ? 40 + 200 * (t - 5) : 80);
        List<Still> stills = Still.in(trace, 0, trace.band_mm());
        assertEquals(3, stills.size());
        assertFalse(new WaitsInClicks(trace, stills, List.of(new Top(0, 0, 0, 0, 1))).isWait(1));
    }

    /** A crest is so flat that a slow hand stands on it, as noise tells, for longer than the person stops there. */
    @Test
    void doesNotTakeAStopForAWaitWhereASlowHandSweptOverTheCrest() {
        CleanTrace trace = trace(90, t -> {
            double way = Math.abs(t % 40 - 20) / 20;
            return t < 80 ? 100 - 50 * way * way : t < 82 ? 50 + 25 * (t - 80) : t < 83.3 ? 100 : 140;
        });
        PassFinder found = finder(trace);
        List<Still> stills = found.stills();
        WaitsInClicks waits = new WaitsInClicks(trace, stills, List.of(new Top(1200, 100, 50, 50, 28)));
        int stop = IntStream.range(0, stills.size())
                .filter(k -> stills.get(k).from() > 1600 && stills.get(k).level_mm() == CREST)
                .findFirst()
                .orElseThrow();
        assertFalse(waits.isWait(stop), () -> stills + "");
    }

    /** Whoever sweeps passes over the crest, and rests where he turns, or the plunger hangs free there. */
    @Test
    void likesTopsAtWhichTheHandRestsLess() {
        CleanTrace round = trace(20, t -> 100 * dome(t % 4));
        CleanTrace resting = trace(20, t -> 100 * Math.min(1, 1.5 * dome(t % 4)));
        assertTrue(finder(round).odds().course() > finder(resting).odds().course() + 2);
    }

    /** One pass, of which the far turn lasts and is the lowest of all: that is no free plunger. */
    @Test
    void doesNotTakeATurnOfTheHandForAFreePlunger() {
        DoubleUnaryOperator swept =
                t -> t < 1 ? 92 : t < 2 ? 100 - 8 * (2 - t) * (2 - t) : 100 - 25 * (t - 2) * (t - 2);
        DoubleUnaryOperator jogged = t -> 99 + 10 * Math.min(6, Math.floor(t - 9)) - (t < 18 ? 0 : 20);
        PassFinder found = finder(trace(
                24,
                t -> t < 4
                        ? swept.applyAsDouble(t)
                        : t < 6 ? 0 : t < 7 ? 99 * (t - 6) : t < 10 ? 99 : jogged.applyAsDouble(t)));
        assertEquals(1, found.windows().size());
        assertEquals(CREST, found.windows().get(0).level_mm(), 2);
    }

    /** A hand that goes slowly over the crest, and a stand that drifts down: the stop lies far below the last pass. */
    @Test
    void keepsTheLastPassWhereADriftTakesTheStopFarBelowIt() {
        PassFinder found = finder(trace(40, t -> sweep(t / 2, 99) - 0.7 * t));
        assertEquals(3, found.windows().size());
    }

    /** A chip lies above the crests, and one of the levels of the jog after them lies at its top by chance. */
    @Test
    void countsAStopOnTheCrestsMoreThanAJogToTheLevelOfAChip() {
        DoubleUnaryOperator jogged = t -> t < 10 ? 100 : 100 + 20 * Math.min(3, Math.floor(t - 9));
        PassFinder found = finder(trace(
                15,
                t -> t < 4
                        ? 100 * dome(t)
                        : t < 8 ? 160 * dome(t - 4) : t < 8.5 ? 200 * (t - 8) : jogged.applyAsDouble(t)));
        assertEquals(100, found.windows().get(0).level_mm(), 3);
    }

    /** Under noise of a sixth of the fall, ten readings a second, in 50 sweeps. */
    @Test
    void tellsTheSenseOfPressingWherePassesHardlyStandOutOfNoise() {
        Random noise = new Random(5);
        double[] time_s = IntStream.range(0, 150).mapToDouble(i -> i / 10.0).toArray();
        long right = IntStream.range(0, 50)
                .mapToObj(i -> DoubleStream.of(time_s)
                        .map(t -> Math.rint(2 * noise.nextGaussian() + sweep(t, 100) * 12 / 100))
                        .toArray())
                .map(readings -> CleanTrace.of(time_s, readings, 1, 1))
                .filter(trace -> finder(trace).odds().sum()
                        > finder(trace.turnedOver()).odds().sum())
                .count();
        assertTrue(right >= 48, "right in " + right);
    }

    /** No hand, but a drive sweeps so fast: three passes of 40 ms, two thousand readings a second. */
    @Test
    void findsPassesThatAreAllQuickerThanAHandSweeps() {
        double[] time_s = IntStream.range(0, 400).mapToDouble(i -> i / 2000.0).toArray();
        double[] readings =
                DoubleStream.of(time_s).map(t -> Math.rint(sweep(100 * t, 100))).toArray();
        assertEquals(3, finder(CleanTrace.of(time_s, readings, 1, 1)).windows().size());
    }

    /** Half a step a second: while the person stands, jogs away and stands again, nothing stands still for long. */
    @Test
    void doesNotTakeAStopForAPassWhereTheReadingDrifts() {
        DoubleUnaryOperator jogged = t -> sweep(t, 99) - (t < 18 ? 0 : 10 * Math.min(6, Math.floor(t - 17)));
        PassFinder found = finder(trace(34, t -> jogged.applyAsDouble(t) + 0.5 * t));
        assertEquals(3, found.windows().size());
    }

    /** The stand rocks by eight steps, five times a second, while the hand goes slowly over the crest for the first time. */
    @Test
    void takesTheSwingsOfAStandDuringAPassForThatPass() {
        PassFinder found = finder(trace(30, t -> sweep(t / 2, 99) + 8 * Math.exp(-t / 4) * Math.sin(10 * Math.PI * t)));
        assertEquals(3, found.windows().size());
    }

    /** There and back: the hand turns an eighth of the fall below the crest. */
    @Test
    void keepsPassesBetweenWhichTheHandHardlyLeavesTheCrest() {
        PassFinder found = finder(trace(8.1, t -> 100 * (1 - Math.pow(0.35 - Math.abs(t - 4.05) / 3, 2))));
        assertEquals(2, found.windows().size());
    }

    /** The last two passes end a third down the flank; then the hand comes back to the crest, stands there, and jogs away. */
    @Test
    void keepsLastPassesAfterWhichTheHandHardlyLeavesTheCrest() {
        DoubleUnaryOperator aside = t -> t < 11.2 ? t / 2 - 5 : t < 13.6 ? 6.2 - t / 2 : Math.min(-0.1, t / 2 - 7.4);
        PassFinder found = finder(trace(
                30,
                t -> t < 8
                        ? 100 * dome(t % 4)
                        : t < 19
                                ? 100 * (1 - Math.pow(aside.applyAsDouble(t), 2))
                                : Math.max(0, 99 - 10 * Math.floor(t - 18))));
        assertEquals(4, found.windows().size());
    }

    /** Half a step a second, and the person jogs away from the stop and comes back: it rises and falls like a pass. */
    @Test
    void takesATopThatOutlastsAllPassesForAStop() {
        DoubleUnaryOperator jogged = t -> -5 * Math.min(8, Math.floor(t - 17)) + 8 * Math.max(0, Math.floor(t - 26));
        PassFinder found =
                finder(trace(32, t -> sweep(t, 99) + (t < 18 ? 0 : jogged.applyAsDouble(Math.min(t, 30))) + t / 2));
        assertEquals(3, found.windows().size());
    }

    /** A slow approach and a slow jog make a wide top of a stop, and noise at its end is the highest of it. */
    @Test
    void takesAStopThatNoiseEndsForNoPass() {
        DoubleUnaryOperator aside = t -> Math.max(0.1, 1 - 0.09 * (t - 4));
        PassFinder found = finder(trace(
                32,
                t -> t < 4
                        ? CREST * dome(t)
                        : t < 16.4
                                ? CREST * (1 - Math.pow(aside.applyAsDouble(t), 2))
                                : t < 16.7 ? 100.6 : 99 - 8 * Math.floor(t - 15.5)));
        assertEquals(1, found.windows().size());
    }

    /** Shallow passes and a jog that overshoots and comes half back: the hand stood there for far longer than at any crest. */
    @Test
    void takesAStopBeforeAJogThatOvershootsForNoPass() {
        PassFinder found = finder(trace(
                54,
                t -> t < 24
                        ? 15 * dome(t % 8 / 2)
                        : t < 32
                                ? 15 * (1 - Math.pow(Math.max(0.15, 1 - (t - 24) / 6), 2))
                                : t < 40 ? 14.7 : t < 45 ? 14.7 - (t - 40) : t < 46 ? 9.7 + 2.9 * (t - 45) : 12.6));
        assertEquals(3, found.windows().size());
    }

    /** Tops that are flat may be a plunger that hangs free; but nothing lies beyond the end of its travel. */
    @Test
    void takesFlatTopsForAFreePlungerOnlyWhereNothingLiesBeyond() {
        DoubleUnaryOperator pressedAway = t -> t < 18 ? flat(t % 6) : CREST - 15 * Math.max(0, Math.min(3, t - 20));
        DoubleUnaryOperator pressedOn = t -> t < 18 ? flat(t % 6) : CREST + 15 * Math.max(0, Math.min(3, t - 20));
        assertTrue(finder(trace(26, pressedOn)).odds().agreement()
                > finder(trace(26, pressedAway)).odds().agreement() + 0.3);
    }

    /** Up, 3 s on a crest, and down again. */
    private static double flat(double t) {
        return Math.min(CREST, CREST - 60 + 60 * Math.min(t, 6 - t) / 1.5);
    }

    private static PassFinder swept(double stop) {
        return finder(trace(20, t -> sweep(t, stop)));
    }

    /** Three passes of 4 s, each with a crest in the middle, then a stop. */
    private static double sweep(double t, double stop) {
        return t < 12 ? CREST * dome(t % 4) : t < 13 ? stop * (t - 12) : stop;
    }

    /** A pass of 4 s over a crest of 1. */
    private static double dome(double t) {
        return 1 - (t / 2 - 1) * (t / 2 - 1);
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
