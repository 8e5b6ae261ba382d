package sweepbook.cli.plan;

import java.util.List;
import sweepbook.analysis.offset.Reversal;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * Half the first touch less the one after half a turn of a rotary axis.
 *
 * @param repeats how often it is touched both ways
 */
public record ReversalMethod(int repeats) implements Repeated {
    static final String WORD = "reversal";

    static final String NOT_HALF_A_TURN =
            "A turn that was not half a turn: look at the angle that the controller shows.";

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        Repeated.super.check(touches);
        if (!touches.get(0).feature().equals(touches.get(1).feature())) {
            throw new IllegalArgumentException("a reversal touches one feature twice; these are "
                    + touches.get(0).feature().name() + " and "
                    + touches.get(1).feature().name());
        }
    }

    @Override
    public Measurement of(List<Touch> first, List<Touch> second) {
        Reversal reversal = new Reversal(first, second);
        return new Measurement(reversal::eccentricity, reversal::warnings);
    }

    @Override
    public String neverNoticed() {
        return NOT_HALF_A_TURN;
    }
}
