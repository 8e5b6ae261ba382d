package sweepbook.analysis.runout.fit;

/**
 * Every reading of a trace, and those of them that are no spikes.
 *
 * @param all every reading
 * @param keep which of them are no spikes
 * @param kept those
 */
public record Readings(Samples all, boolean[] keep, Samples kept) {
    public Readings(Samples all, boolean[] keep) {
        this(all, keep, all.only(keep));
    }
}
