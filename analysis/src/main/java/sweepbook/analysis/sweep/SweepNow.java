package sweepbook.analysis.sweep;

import java.util.OptionalDouble;

/**
 * What can be told while the trace still grows; cheap enough to ask after every reading.
 *
 * @param phase what the person sees happening
 * @param readings how many readings have been fed
 * @param reading_mm the last reading
 * @param passes crossings of the crest so far, rough
 * @param highSpot_mm the crest's reading so far, rough; the findings of the whole trace are the number that counts
 * @param clicks jog steps seen since the dwell on the crest, rough
 */
public record SweepNow(
        Phase phase, long readings, double reading_mm, int passes, OptionalDouble highSpot_mm, int clicks) {
    public enum Phase {
        /** Nothing has come yet. */
        NO_READING,
        /** The feature is moving past or against the contact. */
        MOVING,
        /** At rest with nothing jogged yet, and not yet settled. */
        ON_CREST,
        /** At rest after a jog, but the reading still creeps: hold still. */
        SETTLING,
        /**
         * At rest, and waiting longer would not change the level by a tenth of a resolution; on the crest itself where
         * no click has been counted, at the end of the jog where one has.
         */
        STABLE
    }
}
