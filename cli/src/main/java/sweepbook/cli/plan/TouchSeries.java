package sweepbook.cli.plan;

import java.util.List;
import java.util.Optional;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Stand;
import sweepbook.analysis.sweep.Contour;
import sweepbook.analysis.sweep.Pressing;

/**
 * Touches that are made one after the other by one indicator along one axis.
 *
 * @param madeFor the offset under whose name they are made; others may use them too
 * @param axis the measured axis
 * @param direction in which its shown position changes as the contact is pressed
 * @param pressing what pressing does to the reading; empty to tell it from the crests
 * @param habit when a touch is complete
 * @param positions which positions are typed
 * @param touches in the order in which they are made
 */
public record TouchSeries(
        String madeFor,
        Axis axis,
        Direction direction,
        Stand stand,
        Optional<Pressing> pressing,
        Habit habit,
        Positions positions,
        List<PlannedTouch> touches) {
    public TouchSeries {
        touches = List.copyOf(touches);
        if (habit == Habit.HOLD_STILL && touches.stream().anyMatch(touch -> touch.feature() instanceof Feature.Round)) {
            throw new IllegalArgumentException(
                    "a round feature has a high spot to be swept over; its habit is not " + Word.of(Habit.HOLD_STILL));
        }
        if (habit != Habit.JOG_TO_ZERO
                && habit != Habit.HOLD_STILL
                && touches.stream().anyMatch(touch -> touch.feature() instanceof Feature.Flat)) {
            throw new IllegalArgumentException("a flat feature has no high spot to stop on; its habit is "
                    + Word.of(Habit.JOG_TO_ZERO) + " or " + Word.of(Habit.HOLD_STILL));
        }
    }

    /** What the person does before typing; see the three ways of a touch in the README. */
    public enum Habit {
        /** Sweeps, while the measured axis stands; nobody has to return to the crest. */
        SWEEP_ONLY,
        /** Sweeps and stops on the crest. */
        STOP_ON_CREST,
        /** Sweeps, stops on the crest and jogs in to zero. */
        JOG_TO_ZERO,
        /** Lets the contact stand on a flat feature, as it rides along it; nothing is jogged. */
        HOLD_STILL
    }

    /** Which positions are typed. */
    public enum Positions {
        /** The one at the end. */
        AT_THE_END,
        /** Also the one on the crest before the jog; the clicks in the trace then prove both. */
        ON_CREST_AND_AT_THE_END
    }

    /**
     * One touch.
     *
     * @param setUp what to bring where before it, in the words of the shop
     * @param spot the marked spot of the feature that is under the contact, where that matters
     * @param point what a network calls the place that is touched, as 'pin at C180'; its feature where not told
     * @param stand the set-up of the indicator, where it is moved between the touches of a network
     * @param sweep along which axis the feature is moved past the contact
     */
    public record PlannedTouch(
            Feature feature,
            Optional<String> spot,
            Optional<String> point,
            Optional<String> stand,
            String setUp,
            String sweep) {
        public Contour contour() {
            return feature instanceof Feature.Flat ? Contour.FLAT : Contour.ROUND;
        }
    }
}
