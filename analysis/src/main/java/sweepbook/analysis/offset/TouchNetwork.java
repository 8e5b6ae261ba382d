package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sweepbook.analysis.network.Adjustment;
import sweepbook.analysis.network.Network;
import sweepbook.analysis.network.Observation;
import sweepbook.analysis.network.Reliability;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.network.Sigma;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.Repeats;

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

    private final List<Touch> touches;
    private final TouchConditions conditions;
    private final Network network;
    private final Adjustment adjustment;

    public TouchNetwork(List<Tie> ties, TouchConditions conditions) {
        this.touches = ties.stream().map(Tie::touch).toList();
        this.conditions = conditions;
        Map<String, List<Touch>> ofStand = new HashMap<>();
        for (Tie tie : ties) {
            ofStand.computeIfAbsent(tie.stand(), stand -> new ArrayList<>()).add(tie.touch());
        }
        List<Observation> observations = new ArrayList<>();
        for (Tie tie : ties) {
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

    /** The distance from one point to another with its sources of uncertainty, in millimetres. */
    public Finding<Budget> offset(String from, String to) {
        return adjustment.weights(from, to).map(weight -> {
            Budget offset = new WeightedTouches(touches, weight).budget(conditions);
            Repeats.Ratio agreement = agreement();
            if (!agreement.isTooLarge()) {
                return offset;
            }
            double squares = 0;
            for (double w : weight) {
                squares += w * w;
            }
            return offset.with(new BudgetLine(
                    "what the touches disagree by",
                    Distribution.NORMAL,
                    agreement.beyond(),
                    Math.sqrt(squares),
                    agreement.freedom(),
                    "make the touch again that is named; look for what moves"));
        });
    }

    /** The scatter of the touches about the network against the scatter that a touch has of its own. */
    private Repeats.Ratio agreement() {
        double meanSquare = 0;
        for (Residual residual : adjustment.residuals()) {
            double u_mm = residual.observation().difference().stdU();
            meanSquare += u_mm * u_mm / touches.size();
        }
        double own_mm = Math.sqrt(meanSquare);
        int freedom = adjustment.degreesOfFreedom();
        double seen_mm = freedom > 0 ? adjustment.sigma0() * own_mm : 0;
        return new Repeats.Ratio(seen_mm, freedom, own_mm, Double.POSITIVE_INFINITY);
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings() {
        List<String> warnings = new ArrayList<>(new WeightedTouches(touches, ofAll()).warnings(conditions));
        List<Residual> misfits = toDoAgain();
        for (int i = 0; i < misfits.size(); ) {
            Residual worst = misfits.get(i);
            List<String> alike = misfits.stream()
                    .skip(i)
                    .filter(other -> isAsFarOff(worst, other))
                    .map(residual -> residual.observation().name())
                    .toList();
            i += alike.size();
            warnings.add(String.format(
                    Locale.ROOT,
                    "%s does not fit the others: a mistake of %.4f mm would explain it (standardised residual %.1f); %s",
                    String.join(" or ", alike),
                    Math.abs(worst.mistake_mm()),
                    Math.abs(worst.normalised()),
                    alike.size() == 1
                            ? "make it again"
                            : "which of them cannot be told: make all of them again, and one more"));
        }
        List<String> uncontrolled = adjustment.uncontrolled().stream()
                .map(residual -> residual.observation().name())
                .toList();
        if (!uncontrolled.isEmpty()) {
            warnings.add("nothing controls " + String.join(", ", uncontrolled)
                    + ": a mistake there would not show; touch the same once more");
        }
        return List.copyOf(warnings);
    }

    /** Of touches that a network cannot tell apart each explains the misfit as well. */
    private static boolean isAsFarOff(Residual one, Residual other) {
        return Math.abs(Math.abs(one.normalised()) - Math.abs(other.normalised())) < 1e-6 * Math.abs(one.normalised());
    }

    /** Weights that add up to nothing in every stand: what the warnings ask is whether a source comes in at all. */
    private double[] ofAll() {
        double[] weight = new double[touches.size()];
        for (int i = 1; i < weight.length; i++) {
            weight[i] = i;
            weight[0] -= i;
        }
        return weight;
    }
}
