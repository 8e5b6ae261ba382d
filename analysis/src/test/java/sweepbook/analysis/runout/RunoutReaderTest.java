package sweepbook.analysis.runout;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.TurnedPart.Fault;
import sweepbook.analysis.runout.TurnedPart.Kind;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

class RunoutReaderTest {
    /** More of them by -Drunout.seeds=300; the build tries a few. */
    private static final int SEEDS = Integer.getInteger("runout.seeds", 8);

    /** No figure at all can be right there. */
    private static final Set<Fault> ALWAYS_WITHHELD =
            Set.of(Fault.LESS_THAN_A_TURN, Fault.NOT_TURNING, Fault.TWO_READINGS_A_TURN);

    private static Finding<Runout> read(TurnedPart part, Trace trace) {
        return RunoutReader.read(trace, RunoutSettings.USUAL.withMarks(part.marksTold(), MarkedReading.NEAREST));
    }

    /** Simulated truth: eccentricity near its Cramer-Rao bound, its high spot where it is, every turn counted. */
    @ParameterizedTest
    @CsvSource({
        "EVEN_ONE_MARK, 1.7",
        "HAND_TWELVE_MARKS, 3",
        "NO_MARKS, 1.7",
        "STATIONS, 2",
        "SPIKES, 1.7",
        "NOISE_2Q, 1.7",
        "DRIFT, 1.7"
    })
    void findsEccentricityNearItsBound(Kind kind, double timesBound) {
        double squares = 0;
        int found = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            TurnedPart part = new TurnedPart(kind, seed);
            Trace trace = part.trace();
            Finding<Runout> finding = read(part, trace);
            if (kind == Kind.HAND_TWELVE_MARKS && !finding.isFound()) {
                // A hand so uneven that it may have stopped: no figure, and a reason.
                continue;
            }
            Runout runout = finding.asOptional().orElseThrow(() -> new AssertionError(part + ": " + finding));
            found++;
            int least = (int) part.turnedTurns;
            int most = (int) (part.turnedTurns + 3 / part.perTurn);
            assertTrue(runout.turns() >= least && runout.turns() <= most, part + ": turns " + runout.turns());
            double miss = (runout.eccentricity().value() - part.eccentricity_mm()) / part.bound_mm();
            squares += miss * miss;
            if (runout.highSpotAngle_deg() instanceof Finding.Found<Estimate> angle) {
                double off = Math.IEEEremainder(angle.value().value() - Math.toDegrees(part.highSpot_rad()), 360);
                assertTrue(Math.abs(off) < 4 * angle.value().stdU() + 0.1, part + ": high spot off by " + off);
            }
            double form =
                    runout.outOfRoundness().get(ReferenceCircle.LEAST_SQUARES).value() - part.range_mm(2);
            if (kind != Kind.STATIONS && kind != Kind.NOISE_2Q && part.readings > 500) {
                assertTrue(Math.abs(form) < part.q_mm, part + ": out-of-roundness off by " + form);
            }
        }
        assertTrue(found > SEEDS / 2, kind + ": " + found + " of " + SEEDS + " determined");
        double rms = Math.sqrt(squares / found);
        assertTrue(rms < timesBound, kind + ", seeds 1 to " + SEEDS + ": " + rms + " times the bound");
    }

    /** Simulated truth: what noise makes of a part without any form is no out-of-roundness, to half the step or the noise. */
    @ParameterizedTest
    @CsvSource({"EVEN_ONE_MARK, 0.5", "HAND_TWELVE_MARKS, 0.5", "NOISE_2Q, 1"})
    void aRoundPartIsRound(Kind kind, double steps) {
        int covered = 0;
        int found = 0;
        double squares = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            TurnedPart part = new TurnedPart(kind, seed);
            Arrays.fill(part.cos, 2, part.cos.length, 0);
            Arrays.fill(part.sin, 2, part.sin.length, 0);
            if (read(part, part.trace()) instanceof Finding.Found<Runout> runout) {
                Estimate form = runout.value().outOfRoundness().get(ReferenceCircle.LEAST_SQUARES);
                found++;
                covered += form.value() <= form.u95() ? 1 : 0;
                squares += Math.pow(form.value() / part.q_mm, 2);
            }
        }
        assertTrue(found > SEEDS / 2, kind + ": " + found + " of " + SEEDS + " determined");
        assertTrue(covered >= 0.85 * found - 1, kind + ", seeds 1 to " + SEEDS + ": " + covered + " of " + found);
        double rms = Math.sqrt(squares / found);
        assertTrue(rms < steps, kind + ", seeds 1 to " + SEEDS + ": " + rms + " steps out of round");
    }

    /** Simulated truth: where the part did not turn as it should there is a reason, not a plausible wrong number. */
    @ParameterizedTest
    @CsvSource({
        "EVEN_ONE_MARK, LESS_THAN_A_TURN",
        "HAND_TWELVE_MARKS, LESS_THAN_A_TURN",
        "NO_MARKS, LESS_THAN_A_TURN",
        "HAND_TWELVE_MARKS, MISSED_MARK",
        "HAND_TWELVE_MARKS, BACK",
        "NO_MARKS, BACK",
        "NO_MARKS, STOP",
        "EVEN_ONE_MARK, STOP",
        "NO_MARKS, SPEED_DOUBLED",
        "EVEN_ONE_MARK, SPEED_DOUBLED",
        "HAND_TWELVE_MARKS, WRONG_MARKS_TOLD",
        "EVEN_ONE_MARK, WRONG_MARKS_TOLD",
        "EVEN_ONE_MARK, LATE_MARK",
        "HAND_TWELVE_MARKS, LATE_MARK",
        "NO_MARKS, NOT_TURNING",
        "NO_MARKS, TWO_READINGS_A_TURN"
    })
    void aTurningThatWentWrongGivesNoWrongNumber(Kind kind, Fault fault) {
        int withheld = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            TurnedPart part = new TurnedPart(kind, seed).with(fault);
            Finding<Runout> finding = read(part, part.trace());
            if (finding instanceof Finding.NotDetermined<Runout> not) {
                withheld++;
                assertFalse(not.reason().isBlank());
                continue;
            }
            Runout runout = finding.asOptional().orElseThrow();
            double off = Math.abs(runout.eccentricity().value() - part.eccentricity_mm());
            assertTrue(
                    off < Math.max(2 * runout.eccentricity().u95(), part.q_mm),
                    part + ", " + fault + ": eccentricity off by " + off + ", U95 "
                            + runout.eccentricity().u95());
            double angle_deg = part.marked
                    ? Math.IEEEremainder(
                            runout.highSpotAngle_deg()
                                            .asOptional()
                                            .orElseThrow()
                                            .value()
                                    - Math.toDegrees(part.highSpot_rad()),
                            360)
                    : 0;
            double angleU95_deg = part.marked
                    ? runout.highSpotAngle_deg().asOptional().orElseThrow().u95()
                    : 0;
            assertTrue(
                    Math.abs(angle_deg) < Math.max(2 * angleU95_deg, 3),
                    part + ", " + fault + ": high spot off by " + angle_deg + ", U95 " + angleU95_deg);
        }
        assertTrue(
                withheld >= (ALWAYS_WITHHELD.contains(fault) ? SEEDS : SEEDS / 3),
                kind + ", " + fault + ": withheld " + withheld + " of " + SEEDS);
    }

    /** Law: what rises throughout has not come round, however a ripple on it repeats. */
    @Test
    void aRippleOnARiseIsNoTurn() {
        for (long seed = 1; seed <= SEEDS; seed++) {
            Random random = new Random(seed);
            Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 0.001);
            for (int i = 0; i < 80; i++) {
                double rise_mm = 0.04 * i / 80;
                double ripple_mm = 0.002 * Math.cos(i / 3.5) + 0.0003 * random.nextGaussian();
                builder.add(0.05 * i, Math.rint((rise_mm + ripple_mm) * 1000) / 1000);
            }
            assertFalse(RunoutReader.read(builder.build(), RunoutSettings.USUAL).isFound(), "seed " + seed);
        }
    }

    private static TurnedPart byHand(long seed, int marks, double turns) {
        TurnedPart part = new TurnedPart(Kind.HAND_TWELVE_MARKS, seed);
        part.marksPerTurn = marks;
        part.turns = turns;
        return part;
    }

    /** Simulated truth: what a hand turned but once under few marks hides a mark told late; twice, it does not. */
    @Test
    void fewMarksByHandTellNothingOfOneTurn() {
        int withheld = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            Finding<Runout> once =
                    read(byHand(seed, 4, 1.5), byHand(seed, 4, 1.5).trace());
            withheld += once.isFound() ? 0 : 1;
            TurnedPart late = byHand(seed, 4, 1.5).with(Fault.LATE_MARK);
            if (read(late, late.trace()) instanceof Finding.Found<Runout> runout) {
                Estimate e = runout.value().eccentricity();
                assertTrue(Math.abs(e.value() - late.eccentricity_mm()) < 4 * e.u95(), late + ": " + e);
            }
        }
        assertTrue(withheld > SEEDS / 2, withheld + " of " + SEEDS + " withheld");
    }

    /** Simulated truth: how far a hand went beyond the last mark is not sure enough to make a turn of nearly one. */
    @Test
    void aTurnThatIsNearlyFullIsNone() {
        for (long seed = 1; seed <= 4 * SEEDS; seed++) {
            TurnedPart part = byHand(seed, 4, 0.9 + 0.05 * (seed % 10) / 10);
            assertFalse(read(part, part.trace()).isFound(), part.toString());
        }
    }

    /** Simulated truth: where the readings do not decide whether a mark was told late, its figures lie within U95 both ways. */
    @Test
    void aLateMarkThatTheReadingsBearIsInTheUncertainty() {
        TurnedPart late = new TurnedPart(Kind.HAND_TWELVE_MARKS, 198).with(Fault.LATE_MARK);
        Estimate e =
                read(late, late.trace()).map(Runout::eccentricity).asOptional().orElseThrow();
        assertTrue(Math.abs(e.value() - late.eccentricity_mm()) < 1.5 * e.u95(), e.toString());
    }

    /** Simulated truth: marks of which one is late may seem all to be loosely told; that is no likelier. */
    @Test
    void oneLateMarkDoesNotMakeAllLoose() {
        TurnedPart late = byHand(111, 4, 1.5).with(Fault.LATE_MARK);
        assertFalse(read(late, late.trace()).isFound());
    }

    /** Law: with one turn and another counting of the angle, only the angle changes. */
    @Test
    void statedAnglesMayRunBackwards() {
        Trace.Builder forward = new Trace.Builder(LengthUnit.MM, 0.001);
        Trace.Builder backward = new Trace.Builder(LengthUnit.MM, 0.001);
        for (int i = 0; i < 72; i++) {
            forward.addAtAngle(new Reading(i, at(5 * i)), 5 * i);
            backward.addAtAngle(new Reading(i, at(355 - 5 * i)), 355 - 5 * i);
        }
        Runout one = RunoutReader.read(forward.build(), RunoutSettings.USUAL)
                .asOptional()
                .orElseThrow();
        Runout other = RunoutReader.read(backward.build(), RunoutSettings.USUAL)
                .asOptional()
                .orElseThrow();
        assertEquals(1, one.turns());
        assertEquals(1, other.turns());
        assertEquals(0.05, one.eccentricity().value(), 2e-4);
        assertEquals(one.eccentricity().value(), other.eccentricity().value(), 2e-4);
        assertEquals(120, one.highSpotAngle_deg().asOptional().orElseThrow().value(), 0.3);
        assertEquals(120, other.highSpotAngle_deg().asOptional().orElseThrow().value(), 0.3);
    }

    /** Law: readings that repeat exactly leave noise near zero in the covariance, which rounding must not spoil. */
    @Test
    void readingsWithoutNoiseAtStationsHaveFigures() {
        for (int stations = 12; stations <= 48; stations += 4) {
            for (int steps = 2; steps < 20; steps++) {
                Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 0.001);
                for (int i = 0; i < 3 * stations; i++) {
                    double t = 2 * Math.PI * (i / 3) / stations;
                    double shown = Math.rint(steps * Math.cos(t - 1) + 0.3 * steps * Math.cos(2 * t));
                    builder.addAtAngle(new Reading(i, shown / 1000), Math.toDegrees(t));
                }
                assertTrue(
                        RunoutReader.read(builder.build(), RunoutSettings.USUAL).isFound(),
                        steps + " steps at " + stations + " stations");
            }
        }
    }

    private static double at(double angle_deg) {
        return Math.rint(50 * Math.cos(Math.toRadians(angle_deg - 120))) / 1000;
    }

    /** Law (ISO 230-7): turns of one shape set off against each other spread by their offsets, at every angle alike. */
    @Test
    void theAsynchronousPartIsTheSpreadOfTheTurns() {
        double[] offset = {0.001, -0.002, -0.002, 0.003, 0.003, -0.002, -0.002, 0.001};
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 1e-6);
        for (int i = 0; i < 8 * 400; i++) {
            double t = 2 * Math.PI * i / 400;
            double reading = 0.03 * Math.cos(t) + 0.002 * Math.cos(3 * t) + offset[i / 400];
            builder.add(new Reading(i * 0.01, Math.rint(reading * 1e6) / 1e6, i % 400 == 0));
        }
        Runout runout = RunoutReader.read(builder.build(), RunoutSettings.USUAL)
                .asOptional()
                .orElseThrow();
        assertEquals(8, runout.turns());
        TurnScatter scatter = runout.scatter().asOptional().orElseThrow();
        assertEquals(0.005, scatter.asynchronous().value(), 0.0004);
        assertEquals(
                0.004,
                runout.outOfRoundness().get(ReferenceCircle.LEAST_SQUARES).value(),
                0.0005);
    }

    @Test
    void aReadingThatNeverMovesIsNoRunout() {
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 0.001);
        for (int i = 0; i < 100; i++) {
            builder.add(0.1 * i, 0.5);
        }
        assertFalse(RunoutReader.read(builder.build(), RunoutSettings.USUAL).isFound());
    }

    private static Trace oneMark() {
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 0.001);
        for (int i = 0; i < 400; i++) {
            builder.add(new Reading(
                    0.05 * i, at(3.7 * i), Math.floor(3.7 * i / 360 - 0.4) > Math.floor(3.7 * (i - 1) / 360 - 0.4)));
        }
        return builder.build();
    }

    private static Estimate highSpot(MarkedReading marked) {
        return RunoutReader.read(oneMark(), RunoutSettings.USUAL.withMarks(1, marked))
                .flatMap(Runout::highSpotAngle_deg)
                .asOptional()
                .orElseThrow();
    }

    /** Law: a mark on the next reading passed half a reading before; where nobody says which, U95 holds both. */
    @Test
    void aMarkPassedAsItsReadingSays() {
        Estimate nearest = highSpot(MarkedReading.NEAREST);
        Estimate next = highSpot(MarkedReading.NEXT);
        Estimate notSaid = highSpot(MarkedReading.NOT_SAID);
        assertEquals(120 - 144, Math.IEEEremainder(next.value(), 360), next.u95(), "the mark stands at 144 degrees");
        assertEquals(3.7 / 2, next.value() - nearest.value(), 0.02);
        assertEquals(nearest.value(), notSaid.value(), 1e-9);
        assertTrue(notSaid.u95() > next.value() - nearest.value(), notSaid + " for " + next);
    }

    /** Law: what the calibration says a reading is off by is taken off each; readings beyond it have no figures. */
    @Test
    void theIndicatorsCalibrationIsTakenOff() {
        double e = RunoutReader.read(oneMark(), RunoutSettings.USUAL)
                .asOptional()
                .orElseThrow()
                .eccentricity()
                .value();
        double calibrated = RunoutReader.read(oneMark(), calibrated(-0.1, 0.1))
                .asOptional()
                .orElseThrow()
                .eccentricity()
                .value();
        assertEquals(0.9 * e, calibrated, 1e-5);
        assertTrue(RunoutReader.read(oneMark(), calibrated(-0.01, 0.01)) instanceof Finding.NotDetermined<Runout> not
                && not.reason().contains("outside the calibrated"));
    }

    private static RunoutSettings calibrated(double from_mm, double to_mm) {
        CalibrationTable tenPercent = new CalibrationTable(List.of(
                new CalibrationTable.Point(from_mm, 0.1 * from_mm), new CalibrationTable.Point(to_mm, 0.1 * to_mm)));
        return RunoutSettings.USUAL.withIndicator(IndicatorLimits.NOT_STATED, Optional.of(tenPercent));
    }
}
