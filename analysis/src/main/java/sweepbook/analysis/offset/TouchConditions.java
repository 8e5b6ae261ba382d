package sweepbook.analysis.offset;

import java.util.Optional;

/** What is known of the circumstances beyond the touches themselves. */
public record TouchConditions(IndicatorLimits indicator, MachineLimits machine, Surroundings surroundings) {
    public static final TouchConditions NOT_STATED =
            new TouchConditions(IndicatorLimits.NOT_STATED, MachineLimits.NOT_STATED, Surroundings.NOT_STATED);

    /** The same as measured: for angles, which parts of one temperature keep. */
    TouchConditions withoutTemperature() {
        return new TouchConditions(
                indicator, machine, new Surroundings(surroundings.drift_mm_per_s(), Optional.empty()));
    }
}
