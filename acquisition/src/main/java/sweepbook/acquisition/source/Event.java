package sweepbook.acquisition.source;

import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.IndicatorStatus;

/** What comes from an indicator; times are seconds of the source's clock, as those of its readings. */
public sealed interface Event {
    /** A value. */
    record ReadingTaken(Reading reading) implements Event {}

    /**
     * Something that was sent and is not a value to be trusted; it is not in the trace.
     *
     * @param excerpt its bytes, printable and cut short; empty where nothing came
     */
    record FrameDropped(double time_s, String excerpt, String why) implements Event {}

    /** The indicator shows a status instead of a value. */
    record StatusShown(double time_s, IndicatorStatus status, String word) implements Event {}

    /** A reading that stands alone, far from its neighbours; it is in the trace all the same. */
    record JumpAlone(double time_s, double reading_mm, double before_mm, double behind_mm) implements Event {}

    /**
     * Readings came in bunches; from now on they are on the device's own cadence.
     *
     * @param cadence_s from reading to reading
     * @param delay_s how long the link has held a reading back at most
     */
    record CadenceFound(double time_s, double cadence_s, double delay_s) implements Event {}

    /** Readings no longer fit the cadence: from now on their times are those of their arrival. */
    record CadenceLost(double time_s) implements Event {}

    /**
     * Bytes have come for a while, and none of them is a frame: wrong speed, wrong parity or wrong profile.
     *
     * @param excerpt the last of them
     */
    record NothingDecodes(double time_s, String excerpt) implements Event {}

    /** The link was lost; it is being opened again. */
    record LinkLost(double time_s, String why) implements Event {}

    /** The link is open again. */
    record LinkBack(double time_s, double lost_s) implements Event {}

    /** Nothing came within the time asked for. */
    enum NothingYet implements Event {
        NOTHING_YET
    }

    /** There will be no more: the file or the piped input has ended. */
    enum EndOfInput implements Event {
        END_OF_INPUT
    }
}
