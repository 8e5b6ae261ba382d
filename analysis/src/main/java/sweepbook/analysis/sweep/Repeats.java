package sweepbook.analysis.sweep;

/**
 * Tells what a slow display shows anew from what it only sends again, reading by reading, in constant time: where every value
 * is sent more than once, no two neighbours both change. Used by one thread.
 */
final class Repeats {
    private final int[] gaps = new int[Cadence.MOST_REPEATS + 1];
    private int changes;
    private int atOnce;
    private int counted;
    private int sinceChange;
    private int sinceFresh;
    private int repeats = 1;
    private double before_mm = Double.NaN;

    /** Whether the next reading is a new one. */
    boolean isFresh(double reading_mm) {
        boolean changed = !Double.isNaN(before_mm) && reading_mm != before_mm;
        sinceChange++;
        sinceFresh++;
        if (changed) {
            learn();
            sinceChange = 0;
        }
        before_mm = reading_mm;
        boolean fresh = changed || sinceFresh >= repeats;
        if (fresh) {
            sinceFresh = 0;
        }
        return fresh;
    }

    private void learn() {
        changes++;
        atOnce += sinceChange == 1 && changes > 1 ? 1 : 0;
        if (sinceChange <= Cadence.MOST_REPEATS && changes > 1) {
            gaps[sinceChange]++;
            counted++;
        }
        boolean slow = Cadence.isSlow(changes, counted, atOnce);
        repeats = slow ? firstQuartile() : 1;
    }

    private int firstQuartile() {
        int below = 0;
        int gap = 0;
        while (below <= counted / 4) {
            below += gaps[++gap];
        }
        return gap;
    }
}
