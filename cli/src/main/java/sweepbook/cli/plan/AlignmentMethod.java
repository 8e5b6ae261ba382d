package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.analysis.offset.Alignment;
import sweepbook.analysis.offset.Turning;
import sweepbook.cli.plan.Measurement.Beside;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * How a feature leans against an axis along which the machine travels: two ends, or a line of many. Where a rotary axis
 * is to take the lean away, the result is what it has to turn by.
 *
 * @param travel the axis of the travel
 * @param turned the rotary axis that is to be set
 * @param isTurnedOver whether the part is touched again after half a turn about its length, so that its own lean drops out
 */
public record AlignmentMethod(Axis travel, Optional<Turned> turned, boolean isTurnedOver) implements Method {
    static final String WORD = "alignment";

    /**
     * @param axis A, B or C
     * @param turning which way it turns the feature
     */
    public record Turned(String axis, Turning turning) {}

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " over a travel of " + travel
                + turned.map(rotary -> ", the turn of " + rotary.axis() + " that takes the lean away")
                        .orElse(", the lean from plus " + travel);
    }

    @Override
    public boolean isAngle() {
        return true;
    }

    @Override
    public Optional<Axis> travelAxis() {
        return Optional.of(travel);
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        if (touches.size() < 2) {
            throw new IllegalArgumentException("an " + word() + " takes 2 touches or more, but " + touches.size()
                    + (touches.size() == 1 ? " is" : " are") + " planned");
        }
        for (PlannedTouch touch : touches) {
            if (touches.stream()
                            .filter(other -> spot(other).equals(spot(touch)))
                            .count()
                    < 2) {
                throw new IllegalArgumentException(
                        "spot '" + spot(touch) + "' is touched once only: bring it to both ends");
            }
            if (isTurnedOver
                    && touches.stream().map(AlignmentMethod::spot).distinct().count() != 2) {
                throw new IllegalArgumentException("a part that is turned over has two sides: name each as a spot");
            }
            if (!touch.feature().equals(touches.get(0).feature())) {
                throw new IllegalArgumentException("an " + word() + " stays on one feature; these are "
                        + touches.get(0).feature().name() + " and "
                        + touch.feature().name());
            }
        }
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        Alignment alignment = alignment(made);
        double travelled_mm = made.stream()
                        .mapToDouble(touch -> touch.travel_mm().orElseThrow())
                        .max()
                        .orElseThrow()
                - made.stream()
                        .mapToDouble(touch -> touch.travel_mm().orElseThrow())
                        .min()
                        .orElseThrow();
        return new Measurement(
                conditions -> turned.isPresent()
                        ? alignment.correction_deg(turned.get().turning(), conditions)
                        : alignment.lean_deg(conditions),
                alignment::warnings,
                conditions -> {
                    List<Beside> besides = new ArrayList<>();
                    besides.add(Beside.length(
                            "rise over the whole travel",
                            alignment.over(travelled_mm, conditions).combined()));
                    alignment
                            .straightness(conditions)
                            .ifPresent(range -> besides.add(
                                    Beside.length("straightness, greatest less least off the line", range)));
                    return besides;
                });
    }

    Alignment alignment(List<MadeTouch> made) {
        List<Alignment.Station> stations = made.stream()
                .map(touch ->
                        new Alignment.Station(touch.travel_mm().orElseThrow(), spot(touch.planned()), touch.touch()))
                .toList();
        return isTurnedOver ? Alignment.turnedOver(stations) : new Alignment(stations);
    }

    @Override
    public List<String> unnoticed() {
        return List.of(
                "A stand or part that was bumped between the touches: come back to the first place at the end.",
                "A part that is itself warped, where its spots are not marked and brought round to both ends, or the part is"
                        + " not turned over.");
    }

    /** All touches are of one spot where none is named. */
    private static String spot(PlannedTouch touch) {
        return touch.spot().orElse("");
    }
}
