package sweepbook.analysis.sweep;

/**
 * After how many readings the displayed value changes, and by how much, from which a display that changes more seldom than its
 * link sends is known: no two neighbours both change, it skips steps while the hand moves, and what changes does so after few
 * readings, or after about as many every time. Used by one thread.
 */
final class ChangeGaps {
    /** In readings: a link that sends two hundred a second of a display that shows two. */
    private static final int LONGEST = 100;

    private static final int FEWEST_CHANGES = 12;
    /** Neighbours that both change, among all changes of a slow display: what a loss or a spike makes of it. */
    private static final double MOST_AT_ONCE = 0.05;
    /** In steps of the display: a reading that stands still because it is coarse moves on by one. */
    private static final double SKIPS = 1.5;
    /** Share of such changes where a display is slow; noise and a slow motion change it by one. */
    private static final double SKIPPING = 0.2;
    /** A reading stands still for longer only because it is coarse, unless it always does so for as long. */
    private static final int FEW = 8;
    /** As part of the gaps that are too short for two renewals. */
    private static final double REGULAR = 0.8;
    /** What a display renews at its own pace comes so much later now and then, as a part of the gap. */
    private static final double LATE = 0.125;

    private final int[] gaps = new int[LONGEST + 1];
    private final int[] beforeSkips = new int[LONGEST + 1];
    private int changes;
    private int atOnce;

    /** A value that differs from the one before by so many steps, so many readings after the last that did. */
    void add(int gap, double steps) {
        changes++;
        atOnce += gap == 1 ? 1 : 0;
        if (gap <= LONGEST) {
            gaps[gap]++;
            beforeSkips[gap] += Math.abs(steps) > SKIPS ? 1 : 0;
        }
    }

    /** How often every value is sent, 1 where every reading is a new one. */
    int repeats() {
        if (changes < FEWEST_CHANGES || atOnce > MOST_AT_ONCE * changes) {
            return 1;
        }
        int regular = regular();
        return regular > 1 ? regular : firstQuartileOfFew();
    }

    /** The next reading may still be the new one, so much later than this many. */
    static int late(int repeats) {
        return Math.max(1, (int) (LATE * repeats));
    }

    /** The gap, too long for a reading that moves, after which nearly all changes come; 1 where there is none. */
    private int regular() {
        int most = 0;
        int regular = 1;
        for (int gap = FEW + 1; gap <= LONGEST; gap++) {
            int to = gap + late(gap);
            int about = sum(gaps, gap, to);
            if (about >= most && skips(gap, to) && about >= REGULAR * sum(gaps, 1, 2 * gap - late(gap) - 1)) {
                most = about;
                regular = gap;
            }
        }
        return regular;
    }

    private int firstQuartileOfFew() {
        if (!skips(1, FEW)) {
            return 1;
        }
        int few = sum(gaps, 1, FEW);
        int gap = 0;
        for (int below = 0; below <= few / 4; below += gaps[gap]) {
            gap++;
        }
        return gap;
    }

    /** Whether the display skips steps where it changes after so many readings. */
    private boolean skips(int from, int to) {
        int changed = sum(gaps, from, to);
        return changed >= FEWEST_CHANGES / 2 && sum(beforeSkips, from, to) >= SKIPPING * changed;
    }

    private static int sum(int[] of, int from, int to) {
        int sum = 0;
        for (int gap = from; gap <= Math.min(to, LONGEST); gap++) {
            sum += of[gap];
        }
        return sum;
    }
}
