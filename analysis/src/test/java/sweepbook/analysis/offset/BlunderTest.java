package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.offset.TouchNetwork.Tie;
import sweepbook.analysis.uncertainty.Estimate;

/** Simulated truth: a technician makes one mistake; where there are touches to spare, it is named. */
class BlunderTest {
    private static final int SETUPS = 400;
    private static final long FIRST_SEED = 70_000;
    private static final int TOUCHES = 9;

    private enum Mistake {
        MISTYPED_DIGIT {
            @Override
            Tie make(Tie tie, Technician hand) {
                double digit_mm = Math.pow(10, hand.random.nextInt(-2, 1)) * hand.random.nextInt(3, 9);
                return moved(tie, hand.random.nextInt(0, 1) == 0 ? digit_mm : -digit_mm, 0);
            }
        },
        WRONG_SIGN {
            @Override
            Tie make(Tie tie, Technician hand) {
                return moved(tie, -2 * tie.touch().position_mm(), 0);
            }
        },
        MISSED_CREST {
            @Override
            Tie make(Tie tie, Technician hand) {
                double short_mm = hand.between(0.03, 0.3);
                return moved(
                        tie, 0, -short_mm * tie.touch().approach().pressing().sign());
            }
        },
        OTHER_FEATURE_TOUCHED {
            @Override
            Tie make(Tie tie, Technician hand) {
                String other = tie.point().equals("pin 0") ? "pin 1" : "pin 0";
                return new Tie(tie.name(), tie.stand(), other, tie.touch());
            }
        };

        abstract Tie make(Tie tie, Technician hand);

        private static Tie moved(Tie tie, double position_mm, double reading_mm) {
            Touch touch = tie.touch();
            Estimate reading = touch.reading();
            return new Tie(
                    tie.name(),
                    tie.stand(),
                    tie.point(),
                    new Touch(
                            touch.feature(),
                            touch.approach(),
                            touch.position_mm() + position_mm,
                            new Estimate(reading.value() + reading_mm, reading.stdU(), reading.degreesOfFreedom()),
                            touch.time_s()));
        }
    }

    private static List<Tie> job(Technician hand) {
        Direction direction = hand.direction();
        double[] place_mm = {hand.between(-100, -50), hand.between(-20, 20), hand.between(50, 100)};
        List<Tie> ties = new ArrayList<>();
        for (int i = 0; i < TOUCHES; i++) {
            int pin = i % 3;
            Feature feature = new Feature.Round("pin " + pin, Estimate.exact(8));
            ties.add(new Tie(
                    "touch " + i, "A", feature.name(), hand.touch(feature, place_mm[pin], 8, direction, 60 * i)));
        }
        return ties;
    }

    private static List<String> named(List<Tie> ties, Technician hand) {
        return new TouchNetwork(ties, hand.conditions)
                .toDoAgain().stream()
                        .map(residual -> residual.observation().name())
                        .toList();
    }

    @ParameterizedTest
    @EnumSource(Mistake.class)
    void theTouchWithTheMistakeIsNamedInAtLeast95Percent(Mistake mistake) {
        int right = 0;
        for (int i = 0; i < SETUPS; i++) {
            Technician hand = new Technician(FIRST_SEED + i);
            List<Tie> ties = job(hand);
            int wrong = hand.random.nextInt(0, TOUCHES - 1);
            ties.set(wrong, mistake.make(ties.get(wrong), hand));
            right += named(ties, hand).equals(List.of("touch " + wrong)) ? 1 : 0;
        }
        assertTrue(
                right >= 0.95 * SETUPS, mistake + " named in " + right + " of " + SETUPS + " from seed " + FIRST_SEED);
    }

    @Test
    void twoMistakesOfTwoFeaturesAreBothNamedInAtLeast95Percent() {
        int right = 0;
        for (int i = 0; i < SETUPS; i++) {
            Technician hand = new Technician(FIRST_SEED + i);
            List<Tie> ties = job(hand);
            ties.set(3, Mistake.MISSED_CREST.make(ties.get(3), hand));
            ties.set(7, Mistake.MISTYPED_DIGIT.make(ties.get(7), hand));
            right += named(ties, hand).stream().sorted().toList().equals(List.of("touch 3", "touch 7")) ? 1 : 0;
        }
        assertTrue(right >= 0.95 * SETUPS, "both named in " + right + " of " + SETUPS + " from seed " + FIRST_SEED);
    }

    @Test
    void withoutAMistakeHardlyAnyTouchIsNamed() {
        int named = 0;
        for (int i = 0; i < SETUPS; i++) {
            Technician hand = new Technician(FIRST_SEED + i);
            named += named(job(hand), hand).isEmpty() ? 0 : 1;
        }
        // One in a thousand for each of nine touches, and more for uncertainties known from few readings.
        assertTrue(named <= 0.03 * SETUPS, named + " false names in " + SETUPS + " from seed " + FIRST_SEED);
    }

    @Test
    void aBumpedStandIsToldByTheTouchThatComesBack() {
        int told = 0;
        int falseAlarms = 0;
        for (int i = 0; i < SETUPS; i++) {
            Technician hand = new Technician(FIRST_SEED + i);
            double bump_mm = hand.between(0.03, 0.3);
            boolean early = hand.random.nextInt(0, 1) == 0;
            told += back(hand, early ? bump_mm : 0, bump_mm).moved(hand.conditions) ? 1 : 0;
            falseAlarms += back(hand, 0, 0).moved(hand.conditions) ? 1 : 0;
        }
        assertTrue(told >= 0.95 * SETUPS, "told " + told + " of " + SETUPS + " from seed " + FIRST_SEED);
        assertTrue(
                falseAlarms <= 0.08 * SETUPS, falseAlarms + " false alarms in " + SETUPS + " from seed " + FIRST_SEED);
    }

    private static BracketedPair back(Technician hand, double atMiddle_mm, double atEnd_mm) {
        Feature pin = new Feature.Round("pin", Estimate.exact(8));
        Feature face = new Feature.Flat("face");
        Direction direction = hand.direction();
        return new BracketedPair(
                hand.touch(pin, 10, 8, direction, 0, 0),
                hand.touch(face, 60, 0, direction, 60, atMiddle_mm),
                hand.touch(pin, 10, 8, direction, 120, atEnd_mm));
    }

    /** Law: one touch of each of two features has nothing to spare; every mistake stays unseen, and the network says so. */
    @Test
    void whereNothingIsToSpareNoTouchIsControlled() {
        Technician hand = new Technician(FIRST_SEED);
        TouchNetwork bare = new TouchNetwork(job(hand).subList(0, 3), hand.conditions);
        assertEquals(3, bare.adjustment().uncontrolled().size());
        assertFalse(bare.adjustment().residuals().stream().anyMatch(Residual::isControlled));
    }
}
