package sweepbook.cli.plan;

import java.util.List;
import java.util.stream.IntStream;
import sweepbook.analysis.offset.TurnedTouches;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/** One feature touched at equal steps of a whole turn of a rotary axis, from its zero on: a reversal by more than halves. */
public record StepsMethod() implements Method {
    static final String WORD = "equal-steps";
    private static final int FEWEST = 3;

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " of a whole turn";
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        if (touches.size() < FEWEST) {
            throw new IllegalArgumentException(
                    word() + " take 3 touches or more, one for each step, but " + touches.size() + " are planned");
        }
        for (PlannedTouch touch : touches) {
            if (!touch.feature().equals(touches.get(0).feature())) {
                throw new IllegalArgumentException(word() + " touch one feature all the time; these are "
                        + touches.get(0).feature().name() + " and "
                        + touch.feature().name());
            }
        }
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        TurnedTouches turned = new TurnedTouches(IntStream.range(0, made.size())
                .mapToObj(step -> new TurnedTouches.AtAngle(
                        360.0 * step / made.size(), made.get(step).touch()))
                .toList());
        return new Measurement(
                turned::eccentricity,
                turned::warnings,
                conditions -> List.of(Beside.length(
                        "eccentricity across the measured axis",
                        turned.eccentricityAcross(conditions).combined())));
    }

    @Override
    public List<String> unnoticed() {
        return List.of(
                "A stand or part that was bumped between the touches, where there are no more than 3: add steps.",
                "A turn by another step than was planned: look at the angle that the controller shows.");
    }
}
