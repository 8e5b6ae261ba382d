package sweepbook.simulator.trial;

import java.util.Locale;

/** Kinds of turned parts under the indicator, each with the trouble that it holds. */
public enum TurnKind {
    /** The spindle turns evenly, one witness mark a turn. */
    EVEN_ONE_MARK,
    /** Turned by hand, unevenly, twelve marks a turn. */
    BY_HAND_TWELVE_MARKS,
    /** The spindle turns evenly, and nothing marks the turn. */
    EVEN_NO_MARKS,
    /** The part stands at typed angles while it is read. */
    STATIONS,
    /** As with one mark, and one reading in twenty is off by anything up to the whole range. */
    SPIKES,
    /** As with one mark, noise of twice the display's step. */
    NOISE_2Q,
    /** As with one mark, and the stand moves steadily. */
    DRIFT,
    /** The trace ends before the turn does: no figure of a turn is to be had. */
    LESS_THAN_A_TURN,
    /** By hand with twelve marks, and the hand rests in mid-turn. */
    STOP_IN_MID_TURN,
    /** By hand with twelve marks, and the hand turns back a little in mid-turn, over marks. */
    TURNS_BACK,
    /** By hand with twelve marks, and one of them was not told. */
    MISSED_MARK;

    /** As it is typed and printed. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
