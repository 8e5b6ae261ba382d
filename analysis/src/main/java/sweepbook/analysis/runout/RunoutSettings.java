package sweepbook.analysis.runout;

import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.circle.ReferenceCircle;

/**
 * What is known of a turned part's trace, and what is wanted of it.
 *
 * @param marksPerTurn witness marks on one turn, equally spaced
 * @param order highest undulations per revolution looked at
 * @param cutoff_upr undulations per revolution of which the roundness filter lets half pass (ISO 16610-21)
 * @param circle reference circle of the out-of-roundness that is told first
 * @param step_mm step of the indicator's display; NaN to take the trace's, or to tell it from the readings
 * @param indicator what is known of the indicator beyond the trace
 */
public record RunoutSettings(
        int marksPerTurn,
        int order,
        double cutoff_upr,
        ReferenceCircle circle,
        double step_mm,
        IndicatorLimits indicator) {
    public static final RunoutSettings USUAL =
            new RunoutSettings(1, 50, 50, ReferenceCircle.LEAST_SQUARES, Double.NaN, IndicatorLimits.NOT_STATED);

    public RunoutSettings {
        if (marksPerTurn < 1 || order < 1 || !(cutoff_upr > 0)) {
            throw new IllegalArgumentException("marks per turn " + marksPerTurn + ", order " + order + ", cut-off "
                    + cutoff_upr + ": each must be above zero");
        }
    }

    public RunoutSettings withMarksPerTurn(int marks) {
        return new RunoutSettings(marks, order, cutoff_upr, circle, step_mm, indicator);
    }
}
