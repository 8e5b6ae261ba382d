package sweepbook.analysis.sweep;

/**
 * Tells what a slow display shows anew from what it only sends again, reading by reading, in constant time: where every value
 * is sent more than once, no two neighbours both change. Used by one thread.
 */
final class Repeats {
    private final ChangeGaps gaps = new ChangeGaps();
    private int sinceChange;
    private int sinceFresh;
    private int repeats = 1;
    private double before_mm = Double.NaN;

    /** Whether the next reading of a display with such a step is a new one. */
    boolean isFresh(double reading_mm, double step_mm) {
        boolean changed = !Double.isNaN(before_mm) && reading_mm != before_mm;
        sinceChange++;
        sinceFresh++;
        if (changed) {
            gaps.add(sinceChange, (reading_mm - before_mm) / step_mm);
            repeats = gaps.repeats();
            sinceChange = 0;
        }
        before_mm = reading_mm;
        boolean fresh = changed || sinceFresh >= repeats;
        if (fresh) {
            sinceFresh = 0;
        }
        return fresh;
    }
}
