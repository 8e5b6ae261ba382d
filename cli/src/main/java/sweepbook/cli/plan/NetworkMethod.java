package sweepbook.cli.plan;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import sweepbook.analysis.network.Adjustment;
import sweepbook.analysis.network.Network;
import sweepbook.analysis.network.Observation;
import sweepbook.analysis.network.Reliability;
import sweepbook.analysis.network.Sigma;
import sweepbook.analysis.offset.TouchNetwork;
import sweepbook.analysis.offset.TouchNetwork.Tie;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * More touches than needed between named points, from one stand of the indicator or several: least squares, and the touch
 * that does not fit is named.
 *
 * @param from the point where the offset begins
 * @param to the point where it ends
 */
public record NetworkMethod(String from, String to) implements Method {
    static final String WORD = "network";

    @Override
    public String word() {
        return WORD;
    }

    @Override
    public String inWords() {
        return word() + " of touches, from " + from + " to " + to;
    }

    /** What is left after a skipped touch may still tie the two points together. */
    @Override
    public boolean needsEveryTouch() {
        return false;
    }

    @Override
    public void check(List<PlannedTouch> touches) {
        Adjustment tied = tied(touches);
        orRefuse(tied.difference(from, to));
        for (PlannedTouch touch : touches) {
            orRefuse(tied.difference(from, point(touch)));
        }
    }

    @Override
    public Measurement of(List<MadeTouch> made) {
        Adjustment tied = tied(made.stream().map(MadeTouch::planned).toList());
        orRefuse(tied.difference(from, to));
        List<String> hanging = made.stream()
                .map(touch -> point(touch.planned()))
                .distinct()
                .filter(point -> !tied.difference(from, point).isFound())
                .map(point -> point + " hangs free: no chain of touches ties it to " + from)
                .toList();
        List<Tie> ties = made.stream()
                .map(touch -> new Tie(
                        "touch " + (touch.number() + 1) + " (" + point(touch.planned()) + ")",
                        stand(touch.planned()),
                        point(touch.planned()),
                        touch.touch()))
                .toList();
        return new Measurement(
                conditions -> orRefuse(new TouchNetwork(ties, conditions).offset(from, to)),
                conditions -> Stream.concat(new TouchNetwork(ties, conditions).warnings().stream(), hanging.stream())
                        .toList(),
                conditions -> List.of(),
                conditions -> new TouchNetwork(ties, conditions).adjustment().residuals());
    }

    /** Which point is tied to which; nothing is known of the readings yet. */
    private static Adjustment tied(List<PlannedTouch> touches) {
        List<Observation> ties = touches.stream()
                .map(touch -> new Observation("", "stand " + stand(touch), point(touch), new Estimate(0, 1, 1)))
                .toList();
        return new Network(Map.of(), ties).adjust(Sigma.AS_STATED, Reliability.USUAL);
    }

    private static <T> T orRefuse(Finding<T> difference) {
        if (difference instanceof Finding.NotDetermined<T> not) {
            throw new IllegalArgumentException(not.reason());
        }
        return difference.asOptional().orElseThrow();
    }

    @Override
    public List<String> unnoticed() {
        return List.of(
                "A mistake at a touch that nothing controls, or smaller than its table below says.",
                DifferenceMethod.WRONG_RADIUS);
    }

    private static String point(PlannedTouch touch) {
        return touch.point().orElse(touch.feature().name());
    }

    private static String stand(PlannedTouch touch) {
        return touch.stand().orElse("");
    }
}
