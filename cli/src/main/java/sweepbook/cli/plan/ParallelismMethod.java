package sweepbook.cli.plan;

import java.util.List;
import java.util.Optional;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * How far a feature runs out of a travel of the machine, over a length: the slope of the line through the touches.
 *
 * @param line the touches along the travel
 * @param over the length that the result is for
 */
public record ParallelismMethod(AlignmentMethod line, Length over) implements Method {
    static final String WORD = "parallelism";

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " to the travel of " + line.travel() + ", over " + over;
    }

    @Override
    public Optional<Axis> travelAxis() {
        return line.travelAxis();
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        line.check(touches);
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        Measurement lean = line.of(made);
        return new Measurement(
                conditions -> line.alignment(made).over(over.mm(), conditions), lean.warnings(), lean.besides());
    }

    @Override
    public List<String> unnoticed() {
        return line.unnoticed();
    }
}
