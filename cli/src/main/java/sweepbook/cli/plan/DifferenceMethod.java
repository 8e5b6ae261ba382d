package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.offset.TouchPair;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * Second feature less first.
 *
 * @param repeats how often both are touched, one after the other
 */
public record DifferenceMethod(int repeats) implements Method {
    static final String WORD = "difference";

    static final String WRONG_RADIUS =
            "A wrong radius in the plan, or the wrong pin in the chuck: measure the diameter.";

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + Repeated.inWords(repeats);
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        Repeated.check(this, touches, repeats);
    }

    @Override
    public Measurement of(List<MadeTouch> touches) {
        TouchPair pair = new TouchPair(Repeated.first(touches), Repeated.second(touches));
        return new Measurement(pair::offset, pair::warnings);
    }

    @Override
    public List<String> unnoticed() {
        List<String> mistakes = new ArrayList<>(Repeated.unnoticed(repeats));
        mistakes.add(WRONG_RADIUS);
        return mistakes;
    }
}
