package sweepbook.simulator.trial;

import java.util.List;
import sweepbook.acquisition.trace.Trace;

/**
 * Several runs of one part on one spindle, of which both forms are known. Each run was clamped anew, so each has an eccentricity
 * of its own: nothing of it is in the forms.
 *
 * @param seed makes the same trial again
 * @param runs even turns with one mark each
 * @param part undulations of the part from two a turn on, counted from its mark
 * @param spindle undulations of the spindle's error motion towards the contact, counted from its mark
 */
public record SeparationTrial(long seed, List<Trace> runs, List<Harmonic> part, List<Harmonic> spindle) {
    public SeparationTrial {
        runs = List.copyOf(runs);
        part = List.copyOf(part);
        spindle = List.copyOf(spindle);
    }
}
