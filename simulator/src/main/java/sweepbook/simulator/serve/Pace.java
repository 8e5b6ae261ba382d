package sweepbook.simulator.serve;

/**
 * How fast a virtual indicator sends.
 *
 * @param times how many of its seconds go by in one of ours; unless that is one, the readings' times must travel in the
 *     frames
 */
public record Pace(double times) {
    /** At the indicator's own cadence, standing readings too: as the real thing. */
    public static final Pace TRUE_CADENCE = new Pace(1);

    /** As fast as the link takes it, and only touches. */
    public static final Pace AS_FAST_AS_THE_LINK = new Pace(Double.POSITIVE_INFINITY);

    public Pace {
        if (!(times > 0)) {
            throw new IllegalArgumentException("a pace of " + times + " times the true cadence; it must be above 0");
        }
    }

    /** Whether it sends without end, also what stands, whether somebody takes it or not. */
    boolean isSteady() {
        return times < Double.POSITIVE_INFINITY;
    }
}
