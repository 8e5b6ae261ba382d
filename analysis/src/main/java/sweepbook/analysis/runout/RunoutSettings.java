package sweepbook.analysis.runout;

import java.util.Optional;
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.circle.ReferenceCircle;

/**
 * What is known of a turned part's trace, and what is wanted of it.
 *
 * @param marksPerTurn witness marks on one turn, equally spaced
 * @param markedReading which reading carries a mark
 * @param order highest undulations per revolution looked at
 * @param cutoff_upr undulations per revolution of which the roundness filter lets half pass (ISO 16610-21)
 * @param circle reference circle of the out-of-roundness that is told first
 * @param step_mm step of the indicator's display; NaN to take the trace's, or to tell it from the readings
 * @param indicator what is known of the indicator beyond the trace
 * @param calibration its deviation against its reading, to take off each reading
 */
public record RunoutSettings(
        int marksPerTurn,
        MarkedReading markedReading,
        int order,
        double cutoff_upr,
        ReferenceCircle circle,
        double step_mm,
        IndicatorLimits indicator,
        Optional<CalibrationTable> calibration) {
    public static final RunoutSettings USUAL = new RunoutSettings(
            1,
            MarkedReading.NOT_SAID,
            50,
            50,
            ReferenceCircle.LEAST_SQUARES,
            Double.NaN,
            IndicatorLimits.NOT_STATED,
            Optional.empty());

    public RunoutSettings {
        if (marksPerTurn < 1 || order < 1 || !(cutoff_upr > 0)) {
            throw new IllegalArgumentException("marks per turn " + marksPerTurn + ", order " + order + ", cut-off "
                    + cutoff_upr + ": each must be above zero");
        }
    }

    public RunoutSettings withMarks(int perTurn, MarkedReading marked) {
        return new RunoutSettings(perTurn, marked, order, cutoff_upr, circle, step_mm, indicator, calibration);
    }

    public RunoutSettings withIndicator(IndicatorLimits limits, Optional<CalibrationTable> table) {
        return new RunoutSettings(marksPerTurn, markedReading, order, cutoff_upr, circle, step_mm, limits, table);
    }
}
