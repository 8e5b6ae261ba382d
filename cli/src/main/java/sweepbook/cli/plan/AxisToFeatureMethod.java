package sweepbook.cli.plan;

import java.util.List;
import sweepbook.analysis.offset.Reversal;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * From a rotary axis to a feature: another feature is touched before and after half a turn of the axis, which tells where
 * the axis is, and the feature itself in between, so that a steady drift drops out.
 */
public record AxisToFeatureMethod() implements Method {
    static final String WORD = "axis-to-feature";

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " (one that turns with the axis, the feature, the first after half a turn)";
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        BracketMethod.checkBracket(this, touches, "the last repeats the first after half a turn");
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        List<Touch> touches = MadeTouch.touches(made);
        Reversal axis = new Reversal(touches.get(0), touches.get(2));
        return new Measurement(conditions -> axis.fromAxisTo(touches.get(1), conditions), axis::warnings);
    }

    @Override
    public List<String> unnoticed() {
        return List.of(
                "A stand or part that was bumped between the touches: make the three touches once more.",
                ReversalMethod.NOT_HALF_A_TURN,
                DifferenceMethod.WRONG_RADIUS);
    }
}
