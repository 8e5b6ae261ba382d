package sweepbook.analysis.offset;

/** What is known of the circumstances beyond the touches themselves. */
public record TouchConditions(IndicatorLimits indicator, MachineLimits machine, Surroundings surroundings) {
    public static final TouchConditions NOT_STATED =
            new TouchConditions(IndicatorLimits.NOT_STATED, MachineLimits.NOT_STATED, Surroundings.NOT_STATED);
}
