package sweepbook.simulator.indicator;

import sweepbook.acquisition.trace.Reading;

/**
 * A reading beside the truth about it.
 *
 * @param taken_s the instant at which the plunger was looked at
 * @param reading what is sent, with the time stamp that it gets
 * @param intact whether the value tells of the plunger at that instant: false for a spike or a repeated value
 */
public record Sample(double taken_s, Reading reading, boolean intact) {
    /** The same value with another time stamp. */
    public Sample stamped(double time_s) {
        return new Sample(taken_s, new Reading(time_s, reading.reading_mm(), reading.mark()), intact);
    }

    /** Another value in its place, which says nothing about the plunger. */
    public Sample replaced(double reading_mm) {
        return new Sample(taken_s, new Reading(reading.time_s(), reading_mm, reading.mark()), false);
    }
}
