package sweepbook.analysis.sweep;

import java.util.OptionalDouble;

/**
 * What can be told while the trace still grows; cheap enough to ask after every reading.
 *
 * @param phase what the person sees happening
 * @param readings how many readings have been fed
 * @param reading_mm the last reading
 * @param passes crossings of the crest so far
 * @param highSpot_mm the crest's reading so far, rough; the findings of the whole trace are the number that counts
 * @param clicks jog steps seen since the dwell on the crest
 */
public record SweepNow(
        Phase phase, long readings, double reading_mm, int passes, OptionalDouble highSpot_mm, int clicks) {
    public enum Phase {
        /** No reading yet, or the plunger hangs free. */
        FREE,
        /** The feature is moving past or against the contact. */
        MOVING,
        /** Standing still on the crest; nothing has been jogged yet. */
        ON_CREST,
        /** Nearly still, but the reading still creeps: hold still. */
        SETTLING,
        /** Waiting longer would not change the level by a tenth of a resolution. */
        STABLE
    }
}
