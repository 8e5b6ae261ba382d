package sweepbook.analysis.sweep;

/**
 * A pause of the hand near the crest, as one of several that it may have made.
 *
 * @param from_s from when, roughly, the hand stood
 * @param to_s until when, roughly
 * @param place where it stood, roughly: distance from the crest over sqrt(2 Re), positive after it
 * @param spread standard deviation of that
 * @param reach of when it began and ended, as such a distance: how far an even hand goes within what those are wrong by
 * @param logPrior log of how probable it is beforehand that the hand paused there
 */
record Pause(double from_s, double to_s, double place, double spread, double reach, double logPrior) {
    boolean holds(double time_s) {
        return from_s <= time_s && time_s <= to_s;
    }

    double seconds() {
        return to_s - from_s;
    }

    /** The same pause at other times. */
    Pause between(double from, double to) {
        return new Pause(from, to, place, spread, reach, logPrior);
    }
}
