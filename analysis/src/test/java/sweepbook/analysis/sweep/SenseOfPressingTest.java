package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Simulated truth: touches of a round whose crest reads 0, with what the hand does in them; lengths count in steps. */
class SenseOfPressingTest {
    private static final double STEP_mm = 0.001;
    private static final int SEEDS = 30;

    /** A touch that is made up move by move, 40 readings a second. */
    private static final class Touch {
        private final Random random;
        private final int sign;
        private final List<Double> levels = new ArrayList<>();
        private double way;
        private double pressed;

        Touch(long seed) {
            random = new Random(seed);
            sign = random.nextBoolean() ? 1 : -1;
        }

        double between(double low, double high) {
            return low + (high - low) * random.nextDouble();
        }

        /** To where the reading has fallen so far, before the crest (-1) or beyond it. */
        Touch sweep(int side, double fall, double seconds) {
            double from = way;
            way = side * Math.sqrt(fall);
            for (int i = 1; i <= 40 * seconds; i++) {
                double at = from + (way - from) * i / (40 * seconds);
                levels.add(pressed - at * at);
            }
            return this;
        }

        Touch hold(double seconds) {
            return sweep((int) Math.signum(way), way * way, seconds);
        }

        Touch jog(int clicks, double click, double wait_s) {
            for (int i = 0; i < Math.abs(clicks); i++) {
                pressed += Math.signum(clicks) * click;
                hold(wait_s);
            }
            return this;
        }

        Trace trace() {
            Trace.Builder builder = new Trace.Builder(LengthUnit.MM, STEP_mm);
            for (int i = 0; i < levels.size(); i++) {
                double reading = sign * levels.get(i) + 0.4 * random.nextGaussian();
                builder.add(i / 40.0, Math.rint(reading) * STEP_mm);
            }
            return builder.build();
        }

        Pressing pressing() {
            return sign > 0 ? Pressing.RAISES : Pressing.LOWERS;
        }

        Pressing otherwise() {
            return sign > 0 ? Pressing.LOWERS : Pressing.RAISES;
        }
    }

    private static SweepFindings read(Trace trace, Optional<Pressing> told) {
        return SweepReader.read(trace, new SweepSettings(told, STEP_mm));
    }

    /** What was found instead of the crest. */
    private static Optional<String> missed(Touch touch, Trace trace) {
        SweepFindings findings = read(trace, Optional.empty());
        boolean near = findings.highSpot()
                .asOptional()
                .filter(high -> Math.abs(high.value()) < 3 * STEP_mm)
                .isPresent();
        return near && findings.pressing().equals(Optional.of(touch.pressing()))
                ? Optional.empty()
                : Optional.of(touch.pressing() + " " + findings);
    }

    private static Touch grazed(long seed, boolean first) {
        Touch touch = new Touch(seed);
        double deep = touch.between(30, 300);
        double shallow = touch.between(6, 10);
        touch.sweep(-1, first ? shallow : deep, 0.025)
                .hold(touch.between(0.5, 2))
                .sweep(1, first ? deep : shallow, touch.between(2, 5))
                .hold(touch.between(0.1, 1.5));
        return touch.sweep(1, touch.between(0, 2.5), touch.between(1, 3)).hold(touch.between(2, 5));
    }

    /** Of a single pass one flank is as shallow as the stop misses the crest: where the person stands tells, not how far it falls. */
    @Test
    void isToldOfASinglePassThatGrazesTheCrest() {
        List<String> missed = new ArrayList<>();
        for (long seed = 0; seed < SEEDS; seed++) {
            Touch touch = grazed(seed, true);
            touch.jog(touch.random.nextInt(3, 12), 10, 0.6).hold(3);
            missed(touch, touch.trace()).ifPresent(missed::add);
        }
        assertEquals(List.of(), missed);
    }

    /** Who jogged too far and came back makes a top that falls to both sides, and stands near it too. */
    @Test
    void takesTheEndOfAJogForNoCrest() {
        List<String> missed = new ArrayList<>();
        for (long seed = 0; seed < SEEDS; seed++) {
            Touch touch = grazed(seed, false);
            touch.jog(touch.random.nextInt(3, 12), 10, 0.6).jog(-1, 10, 1).hold(3);
            missed(touch, touch.trace()).ifPresent(missed::add);
        }
        assertEquals(List.of(), missed);
    }

    private static Touch passesAlone(long seed, int passes) {
        Touch touch = new Touch(seed);
        double deep = touch.between(30, 300);
        double rest_s = touch.between(0.1, 1.2);
        touch.sweep(-1, deep, 0.025).hold(1);
        for (int i = 0; i < passes; i++) {
            touch.sweep(i % 2 == 0 ? 1 : -1, deep * touch.between(0.9, 1.1), touch.between(2, 4))
                    .hold(rest_s);
        }
        return touch;
    }

    /** Two crests agree and are round; the one turn of the hand between them is neither. */
    @Test
    void isToldOfTwoPassesWithoutAStop() {
        List<String> missed = new ArrayList<>();
        for (long seed = 0; seed < SEEDS; seed++) {
            Touch touch = passesAlone(seed, 2);
            missed(touch, touch.trace()).ifPresent(missed::add);
        }
        assertEquals(List.of(), missed);
    }

    /** The hand turns short of the crest, twice at the same level, before it crosses it: what reads higher cannot be the flank. */
    @Test
    void takesTurnsOnTheFlankForNoCrests() {
        List<String> missed = new ArrayList<>();
        for (long seed = 0; seed < SEEDS; seed++) {
            Touch touch = new Touch(seed);
            double short_ = touch.between(10, 25);
            touch.sweep(-1, 100, 0.025)
                    .hold(1)
                    .sweep(-1, short_, 1.5)
                    .sweep(-1, 100, 1.5)
                    .sweep(-1, short_ + 0.2, 1.5)
                    .sweep(-1, 90, 1.5)
                    .sweep(1, 8, 2)
                    .sweep(1, touch.between(0, 0.4), 1)
                    .hold(2);
            touch.jog(touch.random.nextInt(4, 9), 10, 0.6).hold(3);
            missed(touch, touch.trace()).ifPresent(missed::add);
        }
        assertEquals(List.of(), missed);
    }

    /** A person who knows is believed, unless the trace says the opposite beyond doubt. */
    @Test
    void believesWhatIsToldWhereTheCourseTellsLittle() {
        for (long seed = 0; seed < SEEDS; seed++) {
            Touch touch = passesAlone(seed, 2 + (int) seed % 4);
            Finding<Estimate> high =
                    read(touch.trace(), Optional.of(touch.pressing())).highSpot();
            assertTrue(high.isFound(), "seed " + seed + ": " + high);
        }
    }

    /** Passes that agree, a stop on the crest, and a plunger that hung free: nobody presses the other way. */
    @Test
    void doesNotBelieveWhatTheWholeCourseContradicts() {
        Touch touch = new Touch(1);
        touch.pressed = -250;
        touch.hold(3);
        touch.pressed = 0;
        touch.sweep(-1, 100, 0.025);
        for (int i = 0; i < 5; i++) {
            touch.sweep(i % 2 == 0 ? 1 : -1, 100 + 17 * (i % 3), 2.5);
        }
        Trace trace = touch.sweep(1, 0, 1).hold(6).trace();
        assertFalse(read(trace, Optional.of(touch.otherwise())).highSpot().isFound());
        assertTrue(read(trace, Optional.of(touch.pressing())).highSpot().isFound());
    }

    /** A wave is the same upside down: U95 holds both crests, and the person reads what to do. */
    @Test
    void saysSoWhereNothingTells() {
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, STEP_mm);
        for (int i = 0; i <= 1200; i++) {
            builder.add(i / 40.0, Math.rint(50 * Math.sin(Math.PI * i / 120.0)) * STEP_mm);
        }
        SweepFindings findings = read(builder.build(), Optional.empty());
        Estimate high = findings.highSpot().asOptional().orElseThrow();
        double other_mm = -Math.signum(high.value()) * 50 * STEP_mm;
        assertTrue(high.u95() >= Math.abs(high.value() - other_mm), "U95 " + high.u95());
        assertTrue(
                findings.warnings().stream().anyMatch(warning -> warning.contains("--pressing")),
                () -> "warnings " + findings.warnings());
    }
}
