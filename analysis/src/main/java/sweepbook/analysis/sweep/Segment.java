package sweepbook.analysis.sweep;

/** A stretch of a trace in which one thing happens. */
public record Segment(Kind kind, double from_s, double to_s) {
    public enum Kind {
        /** The plunger hangs free, nothing touches it. */
        FREE,
        /** The feature comes against the contact and presses it. */
        PRESS_IN,
        /** The feature moves past the contact, on the flank or over the crest. */
        SWEEP,
        /** Nothing moves, on the crest, before the first jog. */
        CREST_DWELL,
        /** The measured axis is jogged, click by click. */
        JOG,
        /** The dwell at the end that has stopped creeping. */
        STABLE_ZERO,
        /** Anything else: backing off, or motion that fits nothing. */
        OTHER
    }
}
