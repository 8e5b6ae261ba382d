package sweepbook.simulator.trial;

import java.util.Locale;

/** Kinds of rest after a jog, each with the trouble that it holds. */
public enum RestKind {
    /** Noise below the display's step. */
    STILL,
    /** Noise of one to two steps. */
    NOISY,
    /** The display's step hides the noise. */
    COARSE,
    /** One reading in twenty is off by anything up to the whole range. */
    SPIKES,
    /** The display shows each value several times. */
    SLOW_DISPLAY,
    /** Noise that hangs together from reading to reading. */
    HUMMING,
    /** The stand settles within some seconds. */
    SETTLING,
    /** It moves by less than half a step in five seconds: slowly enough to count as a level. */
    DRIFT,
    /** It moves by more than a step in five seconds all the time: nothing stable is there. */
    CREEP,
    /** As before, on a display whose step hides the noise. */
    COARSE_CREEP;

    /** As it is typed and printed. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
