package sweepbook.simulator.technician;

/** One pass over the crest: when it began, was on the crest, and ended. */
public record Crossing(double from_s, double crest_s, double to_s) {}
