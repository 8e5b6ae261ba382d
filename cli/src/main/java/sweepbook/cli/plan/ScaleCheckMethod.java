package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.offset.Approach;
import sweepbook.analysis.offset.ScaleCheck;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * The indicator against the machine's scale: jogged by known steps, in and out again, and read at each. The result is by
 * how much the readings differ from the machine over the whole span.
 */
public record ScaleCheckMethod() implements Method {
    static final String WORD = "scale-check";
    private static final int FEWEST = 5;

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " of the readings against the machine, over the jogged span";
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        if (touches.size() < FEWEST) {
            throw new IllegalArgumentException(
                    "a " + word() + " takes 5 steps or more, in and out again, but " + touches.size() + " are planned");
        }
        if (touches.stream()
                .anyMatch(touch -> !touch.feature().equals(touches.get(0).feature()))) {
            throw new IllegalArgumentException("a " + word() + " stays on one feature");
        }
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        List<Touch> touches = MadeTouch.touches(made);
        Approach approach = touches.get(0).approach();
        List<ScaleCheck.Step> steps = new ArrayList<>();
        double farthest_mm = 0;
        for (int i = 0; i < touches.size(); i++) {
            Touch touch = touches.get(i);
            double since_mm = approach.direction().sign()
                    * (touch.position_mm() - touches.get(Math.max(0, i - 1)).position_mm());
            steps.add(new ScaleCheck.Step(
                    touch.position_mm(),
                    touch.reading().value(),
                    since_mm < 0 ? ScaleCheck.Motion.OUT : ScaleCheck.Motion.IN));
            farthest_mm = Math.max(
                    farthest_mm, Math.abs(touch.position_mm() - touches.get(0).position_mm()));
        }
        double span_mm = farthest_mm;
        ScaleCheck check = new ScaleCheck(steps, approach);
        return new Measurement(
                conditions -> check.off(span_mm, touches, conditions),
                conditions -> check.warnings(),
                conditions -> List.of(
                        Beside.ratio("reading for a movement of one", check.slope()),
                        Beside.ratio("to write into the plan as readingScale", check.readingScale()),
                        Beside.length("hysteresis, reading going in less coming out", check.hysteresis()),
                        Beside.length(
                                "scatter of a reading about the line", Estimate.exact(check.repeatability_mm()))));
    }

    @Override
    public List<String> unnoticed() {
        return List.of("An error of the machine's own scale: it counts as one of the indicator here.");
    }
}
