package sweepbook.acquisition.source;

import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.IndicatorStatus;

/** What comes from an indicator; times are seconds of the source's clock, as those of its readings. */
public sealed interface Event {
    /**
     * A value.
     *
     * @param angle_deg at which the part stood; NaN where the source tells no angles
     */
    record ReadingTaken(Reading reading, double angle_deg) implements Event {
        public ReadingTaken(Reading reading) {
            this(reading, Double.NaN);
        }
    }

    /** Something to know beside the readings. */
    sealed interface Incident extends Event {
        /** When, on the time axis of the readings. */
        double time_s();
    }

    /**
     * Something that was sent and is not a value to be trusted; it is not in the trace.
     *
     * @param excerpt its bytes, printable and cut short; empty where nothing came
     */
    record FrameDropped(double time_s, String excerpt, String why) implements Incident {}

    /** More of the same than is worth telling one by one: from the first of them until the last. */
    record FramesDropped(double time_s, double until_s, long count) implements Incident {}

    /** The indicator shows a status instead of a value; while it lasts it is told again now and then. */
    record StatusShown(double time_s, IndicatorStatus status, String word) implements Incident {}

    /** A reading that stands alone, far from its neighbours; it is in the trace all the same. */
    record JumpAlone(double time_s, double reading_mm, double before_mm, double behind_mm) implements Incident {}

    /**
     * Readings came in bunches; from now on they are on the device's own cadence.
     *
     * @param cadence_s from reading to reading
     * @param delay_s how long the link has held a reading back at most
     */
    record CadenceFound(double time_s, double cadence_s, double delay_s) implements Incident {}

    /** Readings no longer fit the cadence: from now on their times are those of their arrival. */
    record CadenceLost(double time_s) implements Incident {}

    /**
     * Bytes have come for a while, and none of them is a frame: wrong speed, wrong parity or wrong profile.
     *
     * @param excerpt the last of them
     */
    record NothingDecodes(double time_s, String excerpt) implements Incident {}

    /** The link is open, and nothing has come over it for so long. */
    record Silence(double time_s, double since_s) implements Incident {}

    /** The link was lost; it is being opened again. */
    record LinkLost(double time_s, String why) implements Incident {}

    /** The link is still lost, and there is something new to say about it. */
    record LinkStillLost(double time_s, String why) implements Incident {}

    /**
     * The link is open again.
     *
     * @param link where it was found: a port may have come up under another name
     */
    record LinkBack(double time_s, double lost_s, String link) implements Incident {}

    /** Nothing came within the time asked for. */
    enum NothingYet implements Event {
        NOTHING_YET
    }

    /** There will be no more: the file or the piped input has ended. */
    enum EndOfInput implements Event {
        END_OF_INPUT
    }
}
