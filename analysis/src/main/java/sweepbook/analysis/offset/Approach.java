package sweepbook.analysis.offset;

import sweepbook.analysis.sweep.Pressing;

/** How the contact is pressed: all the signs of a touch. */
public record Approach(Direction direction, Pressing pressing, Stand stand) {}
