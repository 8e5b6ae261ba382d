package sweepbook.simulator.serve;

/** How fast a virtual indicator sends. */
public enum Pace {
    /** At the indicator's own cadence, standing readings too: as the real thing. */
    TRUE_CADENCE,
    /** As fast as the link takes it, and only touches; the readings' times must travel in the frames. */
    AS_FAST_AS_THE_LINK
}
