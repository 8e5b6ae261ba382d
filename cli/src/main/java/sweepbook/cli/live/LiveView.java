package sweepbook.cli.live;

/**
 * What a person sees while the indicator is read.
 *
 * @param reading the last one as the indicator shows it, or what stands in its place
 * @param state what is happening, in a few words
 * @param detail what has been found so far, and how the link does
 */
public record LiveView(String reading, String state, String detail) {}
