package sweepbook.analysis.runout.angle;

/** Which reading carries a mark: recorders differ, and no trace shows it. */
public enum MarkedReading {
    /** The one nearest to its passing. */
    NEAREST,
    /** The first one after it, as of a switch that is looked at with each reading. */
    NEXT,
    /** Taken for the nearest; angles may all be half a reading late, and their uncertainty says so. */
    NOT_SAID
}
