package sweepbook.cli.plan;

import java.util.List;
import sweepbook.analysis.offset.BracketedPair;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/** Second feature less first, the first touched again at the end (A-B-A): what it does not come back to is told. */
public record BracketMethod() implements Method {
    static final String WORD = "bracketed-difference";
    private static final int TOUCHES = 3;

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " (first, second, first again)";
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        checkBracket(this, touches, "the last repeats the first");
    }

    /** Three touches, of which the last is of the same feature as the first. */
    static void checkBracket(Method method, List<PlannedTouch> touches, String last) {
        if (touches.size() != TOUCHES) {
            throw new IllegalArgumentException("a measurement by " + method.word() + " takes 3 touches, but "
                    + touches.size() + " are planned; " + last);
        }
        if (!touches.get(0).feature().equals(touches.get(2).feature())) {
            throw new IllegalArgumentException("a measurement by " + method.word()
                    + " ends on the feature that it began with; these are "
                    + touches.get(0).feature().name() + " and "
                    + touches.get(2).feature().name());
        }
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        List<Touch> touches = MadeTouch.touches(made);
        BracketedPair pair = new BracketedPair(touches.get(0), touches.get(1), touches.get(2));
        return new Measurement(
                pair::offset,
                pair::warnings,
                conditions -> List.of(Beside.length("misclosure", pair.misclosure(conditions))));
    }

    @Override
    public List<String> unnoticed() {
        return List.of(DifferenceMethod.WRONG_RADIUS);
    }
}
