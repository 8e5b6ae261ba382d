package sweepbook.cli.live;

/**
 * What a person sees while the indicator is read.
 *
 * @param reading the last one as the indicator shows it, or what stands in its place
 * @param cue what to do, to be read from across the machine
 * @param state what is happening, in a few words
 * @param passes how often the crest has been crossed in this touch
 * @param found what has been found so far in this touch
 * @param health how the link does
 */
public record LiveView(String reading, Cue cue, String state, int passes, String found, String health) {}
