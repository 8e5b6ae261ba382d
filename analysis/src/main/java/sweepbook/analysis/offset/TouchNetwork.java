package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sweepbook.analysis.network.Adjustment;
import sweepbook.analysis.network.Network;
import sweepbook.analysis.network.Observation;
import sweepbook.analysis.network.Reliability;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.network.Sigma;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * All touches along one axis as equations between named points: each ties the place of a feature to the place of the
 * stand the indicator was in. With more touches than needed a mistake shows, and is named.
 */
public final class TouchNetwork {
    /**
     * @param name how the person finds this touch again
     * @param stand which set-up of the indicator it was made in; moved or bumped, it is another
     * @param point what was touched, and in which position of the rotary axes: "pin at C180"
     */
    public record Tie(String name, String stand, String point, Touch touch) {}

    private final Map<String, Feature> features = new HashMap<>();
    private final Network network;
    private final Adjustment adjustment;

    public TouchNetwork(List<Tie> ties, TouchConditions conditions) {
        Map<String, List<Touch>> ofStand = new HashMap<>();
        for (Tie tie : ties) {
            ofStand.computeIfAbsent(tie.stand(), stand -> new ArrayList<>()).add(tie.touch());
        }
        List<Observation> observations = new ArrayList<>();
        for (Tie tie : ties) {
            features.put(tie.point(), tie.touch().feature());
            List<Touch> together = ofStand.get(tie.stand());
            Estimate own = WeightedTouches.scatterAmong(together, together.indexOf(tie.touch()), conditions);
            double place_mm = WeightedTouches.place_mm(tie.touch(), conditions.indicator());
            observations.add(new Observation(
                    tie.name(),
                    "stand " + tie.stand(),
                    tie.point(),
                    new Estimate(place_mm, own.stdU(), own.degreesOfFreedom())));
        }
        network = new Network(Map.of(), observations);
        adjustment = network.adjust(Sigma.AS_STATED, Reliability.USUAL);
    }

    /** The touches to do again: each that does not fit, the worst first, or several that cannot be told apart. */
    public List<Residual> toDoAgain() {
        return network.misfits(Sigma.AS_STATED, Reliability.USUAL);
    }

    /** Residuals and redundancy of all touches together. */
    public Adjustment adjustment() {
        return adjustment;
    }

    /** The distance from one point to another, in millimetres; radii are taken as touched from the same side. */
    public Finding<Estimate> offset(String from, String to) {
        return adjustment.difference(from, to).map(difference -> {
            Feature one = features.get(from);
            Feature other = features.get(to);
            double radii_mm = one.equals(other)
                    ? 0
                    : Math.hypot(one.radius().stdU(), other.radius().stdU());
            return new Estimate(
                    difference.value(), Math.hypot(difference.stdU(), radii_mm), difference.degreesOfFreedom());
        });
    }
}
