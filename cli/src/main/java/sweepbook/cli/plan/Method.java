package sweepbook.cli.plan;

import java.util.List;
import java.util.Optional;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/** How touches become an offset: all that differs from one way to the next is here. */
public sealed interface Method
        permits Repeated,
                BracketMethod,
                AxisToFeatureMethod,
                AlignmentMethod,
                ParallelismMethod,
                StepsMethod,
                TramMethod,
                NetworkMethod,
                ScaleCheckMethod {
    /** As it is written in plans. */
    String word();

    /** For the record. */
    String inWords();

    /** Whether it gives an angle, in degrees; else a length. */
    default boolean isAngle() {
        return false;
    }

    /** The axis whose position is typed at each touch beside that of the measured one. */
    default Optional<Axis> travelAxis() {
        return Optional.empty();
    }

    /** Whether nothing can be said before all touches are made. */
    default boolean needsEveryTouch() {
        return true;
    }

    /** How many touches it takes; an {@link IllegalArgumentException} says why it cannot use the planned ones. */
    void check(List<PlannedTouch> touches);

    /**
     * The measurement that the touches are.
     *
     * @param touches those made, in the order of the plan; all of them where every one is needed
     * @throws IllegalArgumentException if they do not belong together, with what to do
     */
    Measurement of(List<MadeTouch> touches);

    /** Mistakes that it has no means to show, each with what would show it. */
    List<String> unnoticed();
}
