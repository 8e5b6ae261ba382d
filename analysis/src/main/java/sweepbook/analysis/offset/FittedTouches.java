package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.fit.LinearFit;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Repeats;

/**
 * A model that is linear in its parameters, laid through the places of many touches. A parameter is a weighted sum of
 * them and has that sum's budget; where the touches miss the model by more than their uncertainties explain, what
 * they disagree by stands in the budget too.
 */
final class FittedTouches {
    private final List<Touch> touches;
    private final double[][] rows;

    /**
     * @param rows a row for each touch, with a basis function a parameter
     */
    FittedTouches(List<Touch> touches, double[][] rows) {
        this.touches = List.copyOf(touches);
        this.rows = rows;
    }

    LinearFit fit(TouchConditions conditions) {
        return new LinearFit(
                rows,
                touches.stream()
                        .mapToDouble(touch -> WeightedTouches.place_mm(touch, conditions.indicator()))
                        .toArray());
    }

    /** A parameter in whose weights the place of the stand drops out. */
    Budget parameter(int j, TouchConditions conditions) {
        return sum(fit(conditions).weights(j), conditions);
    }

    /** Any sum of the touches in whose weights the place of the stand drops out. */
    Budget sum(double[] weight, TouchConditions conditions) {
        return withDisagreement(new WeightedTouches(touches, weight).budget(conditions), weight, conditions);
    }

    /** A parameter that is a place itself, as the distance from it to another touch of the same stand. */
    Budget fromParameterTo(int j, Touch other, TouchConditions conditions) {
        double[] weight = fit(conditions).weights(j);
        List<Touch> all = new ArrayList<>(touches);
        all.add(other);
        double[] difference = new double[all.size()];
        for (int i = 0; i < weight.length; i++) {
            difference[i] = -weight[i];
        }
        difference[weight.length] = 1;
        return withDisagreement(new WeightedTouches(all, difference).budget(conditions), weight, conditions);
    }

    /** Greatest less least distance of the touches from the model, with the uncertainty that these two give it. */
    Estimate spread(TouchConditions conditions) {
        LinearFit fit = fit(conditions);
        double[] residual_mm = fit.residuals();
        int least = 0;
        int greatest = 0;
        for (int i = 1; i < residual_mm.length; i++) {
            least = residual_mm[i] < residual_mm[least] ? i : least;
            greatest = residual_mm[i] > residual_mm[greatest] ? i : greatest;
        }
        double[] weight = new double[residual_mm.length];
        if (least != greatest) {
            weight[least] = -1;
            weight[greatest] = 1;
        }
        for (int j = 0; j < rows[0].length; j++) {
            double[] ofParameter = fit.weights(j);
            double apart = rows[greatest][j] - rows[least][j];
            for (int i = 0; i < weight.length; i++) {
                weight[i] -= apart * ofParameter[i];
            }
        }
        return new WeightedTouches(touches, weight).repeatability(conditions).combined();
    }

    private Budget withDisagreement(Budget budget, double[] weight, TouchConditions conditions) {
        Repeats.Ratio agreement = agreement(conditions);
        if (!agreement.isTooLarge()) {
            return budget;
        }
        double squares = 0;
        for (double w : weight) {
            squares += w * w;
        }
        return budget.with(new BudgetLine(
                "what the touches miss the model by",
                Distribution.NORMAL,
                agreement.beyond(),
                Math.sqrt(squares),
                agreement.freedom(),
                "look at the worst touch; clean and deburr; a straighter or rounder part"));
    }

    /** The scatter about the model against the scatter that a touch has of its own. */
    private Repeats.Ratio agreement(TouchConditions conditions) {
        LinearFit fit = fit(conditions);
        return new Repeats.Ratio(fit.scatter(), fit.degreesOfFreedom(), scatterOfOne(conditions));
    }

    private Estimate scatterOfOne(TouchConditions conditions) {
        List<BudgetLine> each = new ArrayList<>();
        for (int i = 0; i < touches.size(); i++) {
            Estimate own = WeightedTouches.scatterAmong(touches, i, conditions);
            each.add(BudgetLine.of("", own, Math.sqrt(1.0 / touches.size()), ""));
        }
        return new Budget(0, each).combined();
    }

    List<String> warnings(TouchConditions conditions) {
        List<String> warnings = new ArrayList<>(
                new WeightedTouches(touches, fit(conditions).weights(rows[0].length - 1)).warnings(conditions));
        if (agreement(conditions).isTooLarge()) {
            double[] residual_mm = fit(conditions).residuals();
            int worst = 0;
            for (int i = 1; i < residual_mm.length; i++) {
                if (Math.abs(residual_mm[i]) > Math.abs(residual_mm[worst])) {
                    worst = i;
                }
            }
            warnings.add("the touches miss the model by more than their uncertainties explain, touch " + (worst + 1)
                    + " the most: look for a burr, a chip, or a part that is bent");
        }
        return List.copyOf(warnings);
    }
}
