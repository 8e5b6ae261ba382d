package sweepbook.simulator.trial;

import java.util.Locale;

/** Kinds of sweeps, each with the trouble that it holds. */
public enum SweepKind {
    /** Several even passes, noise below the display's step. */
    CLEAN,
    /** One even pass only. */
    ONE_PASS,
    /** Noise of twice the display's step. */
    NOISE_2Q,
    /** One reading in twenty is off by anything up to the whole range. */
    SPIKES,
    /** The stand moves steadily. */
    DRIFT,
    /** Runs of readings are missing. */
    LOST_BURSTS,
    /** The display's step is far greater than the noise. */
    COARSE,
    /** The hand's speed wanders and it stops in mid-pass. */
    UNEVEN_HAND,
    /** The plunger hangs free when the first pass of an uneven hand begins. */
    FREE_START,
    /** The swept axis moves click by click, with waits. */
    CLICK_WISE,
    /** Rocking stand, spikes, lost bursts, uneven hand, readings in bursts. */
    EVERYTHING,
    /** The stand was knocked at the start: it swings and settles. Beside the official kinds. */
    ROCKING_STAND,
    /** The display shows each value several times. Beside the official kinds. */
    SLOW_DISPLAY,
    /** Readings share the time of the burst that they came in. Beside the official kinds. */
    USB_BURSTS,
    /** A chip lies on the crest in one pass. Beside the official kinds. */
    CHIP,
    /** The last dwell still creeps, by more than a step in five seconds: nothing stable is there. Beside the official kinds. */
    CREEP;

    /** As it is typed and printed. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
