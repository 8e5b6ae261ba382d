package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sweepbook.analysis.network.Adjustment;
import sweepbook.analysis.network.Network;
import sweepbook.analysis.network.Observation;
import sweepbook.analysis.network.Reliability;
import sweepbook.analysis.network.Sigma;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
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
    private final Adjustment adjustment;

    public TouchNetwork(List<Tie> ties, TouchConditions conditions) {
        List<Observation> observations = new ArrayList<>();
        Map<String, Double> middle_s = middles(ties);
        for (Tie tie : ties) {
            features.put(tie.point(), tie.touch().feature());
            double away_s = tie.touch().time_s() - middle_s.get(tie.stand());
            observations.add(new Observation(
                    tie.name(), "stand " + tie.stand(), tie.point(), place(tie.touch(), away_s, conditions)));
        }
        adjustment = new Network(Map.of(), observations).adjust(Sigma.AS_STATED, Reliability.USUAL);
    }

    private static Map<String, Double> middles(List<Tie> ties) {
        Map<String, Double> sum_s = new HashMap<>();
        Map<String, Integer> count = new HashMap<>();
        for (Tie tie : ties) {
            sum_s.merge(tie.stand(), tie.touch().time_s(), Double::sum);
            count.merge(tie.stand(), 1, Integer::sum);
        }
        sum_s.replaceAll((stand, sum) -> sum / count.get(stand));
        return sum_s;
    }

    private static Estimate place(Touch touch, double away_s, TouchConditions conditions) {
        double rate = conditions.surroundings().drift_mm_per_s();
        return new WeightedTouches(List.of(touch), 1)
                .repeatability(conditions)
                .with(BudgetLine.within(
                        "drift", Distribution.RECTANGULAR, Double.isNaN(rate) ? 0 : rate, away_s, "work faster"))
                .combined();
    }

    /** Residuals, redundancy, and the touches that do not fit. */
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
