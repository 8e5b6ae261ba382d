package sweepbook.cli.plan;

import java.util.List;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchPair;

/**
 * Second feature less first.
 *
 * @param repeats how often both are touched, one after the other
 */
public record DifferenceMethod(int repeats) implements Repeated {
    static final String WORD = "difference";

    static final String WRONG_RADIUS =
            "A wrong radius in the plan, or the wrong pin in the chuck: measure the diameter.";

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public Measurement of(List<Touch> first, List<Touch> second) {
        TouchPair pair = new TouchPair(first, second);
        return new Measurement(pair::offset, pair::warnings);
    }

    @Override
    public String neverNoticed() {
        return WRONG_RADIUS;
    }
}
