package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Tram;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * Squareness of a spindle to a table: swung by the spindle, the contact stands on the table at equal steps of a circle
 * while no axis moves.
 *
 * @param circleRadius from the spindle's axis to the contact
 * @param towards_deg the direction on the circle towards which the lean of the upper end is sought
 */
public record TramMethod(Length circleRadius, double towards_deg) implements Method {
    static final String WORD = "tram";
    private static final int FEWEST = 3;

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " on a circle of radius " + circleRadius + ", lean of the upper end towards " + towards_deg
                + " degrees";
    }

    @Override
    public boolean isAngle() {
        return true;
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        if (touches.size() < FEWEST) {
            throw new IllegalArgumentException("a " + word()
                    + " takes 3 touches or more, one for each step of the circle, but " + touches.size()
                    + " are planned");
        }
        if (touches.stream().anyMatch(touch -> touch.feature() instanceof Feature.Round)) {
            throw new IllegalArgumentException("a " + word() + " stands on flat features only");
        }
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        double position_mm = made.get(0).touch().position_mm();
        if (made.stream().anyMatch(touch -> touch.touch().position_mm() != position_mm)) {
            throw new IllegalArgumentException(
                    "the typed positions differ, but no axis may move in a tram; make its touches again");
        }
        Tram tram = new Tram(
                IntStream.range(0, made.size())
                        .mapToObj(step -> new Tram.AtAngle(
                                360.0 * step / made.size(),
                                made.get(step).touch().reading(),
                                made.get(step).touch().time_s()))
                        .toList(),
                circleRadius.mm(),
                made.get(0).touch().approach().pressing());
        return new Measurement(
                conditions -> tram.leanTowards_deg(towards_deg, conditions), tram::warnings, conditions -> {
                    List<Beside> besides = new ArrayList<>(List.of(
                            overDiameter("that way", tram.leanTowards_deg(towards_deg, conditions)),
                            overDiameter("at right angles to it", tram.leanTowards_deg(towards_deg + 90, conditions)),
                            Beside.angle("whole tilt", tram.tilt_deg(conditions).combined())));
                    tram.direction(conditions)
                            .asOptional()
                            .ifPresent(
                                    direction -> besides.add(Beside.angle("the upper end leans towards", direction)));
                    return besides;
                });
    }

    /** The lean is small: its rise is the arc. */
    private Beside overDiameter(String way, Budget lean_deg) {
        return Beside.length(
                "rise over the circle's diameter " + way,
                lean_deg.times(Math.toRadians(1) * 2 * circleRadius.mm()).combined());
    }

    @Override
    public List<String> unnoticed() {
        return List.of(
                "A table that is not flat where the contact stands, beyond what the spare touches show.",
                "An arm that gives way as it swings: read each place once more from the other side.");
    }
}
