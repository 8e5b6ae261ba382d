package sweepbook.analysis.sweep;

/**
 * A still stretch of a pass beside what an even hand would make of its flank: on the way over the crest the reading changes slowly,
 * too.
 *
 * @param end the last reading of the flank on which it lies
 */
record Standstill(CleanTrace trace, Still still, Top top, int end) {
    /** A stop's time is taken out for good, so it has to be clear. */
    private static final double CLEARLY = 2;

    private static final double CLEARLY_s = 0.1;
    /** A pause is but tried. */
    private static final double LONGER = 1.5;

    private static final double LONGER_s = 0.05;
    /** However shallow the pass, some of it moves. */
    private static final double MOST_STILL = 0.9;

    /** Whether it clearly lasts longer than an even hand would make it last. */
    boolean isStop() {
        return still.seconds(trace) > CLEARLY * flank_s() * evenly() + CLEARLY_s;
    }

    /** Whether it lasts longer than an even hand would that is as fast as on the rest of the flank. */
    boolean mayBePause() {
        double share = Math.min(evenly(), MOST_STILL);
        return still.seconds(trace) > LONGER * (flank_s() - own_s()) * share / (1 - share) + LONGER_s;
    }

    private double flank_s() {
        return Math.abs(trace.time_s()[end] - trace.time_s()[top.index()]);
    }

    /** How much of the flank it takes. */
    private double own_s() {
        int from = Math.max(still.from(), Math.min(top.index(), end));
        int to = Math.min(still.to() - 1, Math.max(top.index(), end));
        return to > from ? trace.time_s()[to] - trace.time_s()[from] : 0;
    }

    /** The part of a flank's time in which an even hand crosses the band about this level, its drop growing with the square of time. */
    private double evenly() {
        double fall = Math.max(top.level_mm() - trace.line_mm()[end], trace.leastMove_mm());
        double below = Math.max(top.level_mm() - still.level_mm(), 0);
        double band = trace.band_mm();
        return Math.sqrt((below + band) / fall) - Math.sqrt(Math.max(0, below - band) / fall);
    }
}
