package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/**
 * How often a display shows a new value, told from the readings: where it is read more often than that, the same value
 * is seen several times over, and each but the first is older than its time says.
 */
public final class Refresh {
    /** Fewer changes say nothing. */
    private static final int LEAST_CHANGES = 20;
    /** So many changes in a hundred may come early: a reading that was lost, a timer that is not even. */
    private static final int EARLY_PERCENT = 2;
    /** So many changes in a hundred are by more than one step, where readings in between were not shown. */
    private static final int JUMP_PERCENT = 5;
    /** Slower displays are told by their changes being apart. */
    private static final int MOST_IN_TIME = 20;
    /** So many readings show it. */
    private static final int MOST_LOOKED_AT = 50_000;
    /** Beyond so many, a reading that stands still is taken for that. */
    private static final int MOST_READINGS = 200;

    private Refresh() {}

    /** Readings for one new value; 1 where every reading may be new. */
    public static int readings(double[] reading_mm, double step_mm) {
        return Math.max(inTime(reading_mm), apart(reading_mm, step_mm));
    }

    /** Changes that all fall on every so many-th reading, as those of a display in time with the readings do. */
    private static int inTime(double[] reading_mm) {
        int[] change = changes(reading_mm, Math.min(MOST_LOOKED_AT, reading_mm.length));
        for (int every = MOST_IN_TIME; every > 1; every--) {
            int[] at = new int[every];
            for (int i : change) {
                at[i % every]++;
            }
            int most = Arrays.stream(at).max().orElseThrow();
            if (change.length >= LEAST_CHANGES && (change.length - most) * 100 <= EARLY_PERCENT * change.length) {
                return every;
            }
        }
        return 1;
    }

    /** Which of the first readings are not as the one before. */
    private static int[] changes(double[] reading_mm, int count) {
        int[] change = new int[count];
        int n = 0;
        for (int i = 1; i < count; i++) {
            if (reading_mm[i] != reading_mm[i - 1]) {
                change[n++] = i;
            }
        }
        return Arrays.copyOf(change, n);
    }

    /** Changes that are never nearer to each other, and by several steps, for those in between were not shown. */
    private static int apart(double[] reading_mm, double step_mm) {
        int changes = 0;
        int jumps = 0;
        for (int i = 1; i < reading_mm.length; i++) {
            double change = Math.abs(reading_mm[i] - reading_mm[i - 1]);
            changes += change > 0 ? 1 : 0;
            jumps += change > 1.5 * step_mm ? 1 : 0;
        }
        // A reading that moves slowly stands still between steps too, but then it takes every step.
        return jumps * 100 < JUMP_PERCENT * changes ? 1 : notExcluded(reading_mm);
    }

    /** Readings by which changes are apart, be it for the display or for the part: no display is slower. */
    public static int notExcluded(double[] reading_mm) {
        int[] runs = new int[MOST_READINGS + 1];
        int changes = 0;
        int since = -1;
        for (int i = 1; i < reading_mm.length; i++) {
            if (reading_mm[i] != reading_mm[i - 1]) {
                if (since >= 0) {
                    runs[Math.min(MOST_READINGS, i - since)]++;
                    changes++;
                }
                since = i;
            }
        }
        if (changes < LEAST_CHANGES) {
            return 1;
        }
        int early = 0;
        int shortest = 0;
        while (early * 100 <= EARLY_PERCENT * changes && shortest < MOST_READINGS) {
            early += runs[++shortest];
        }
        return shortest;
    }

    /**
     * The readings at which a new value came up: changes, and where the next change is so far off that new values in between
     * must have shown the same.
     */
    public static boolean[] fresh(double[] reading_mm, int readings) {
        int n = reading_mm.length;
        boolean[] fresh = new boolean[n];
        for (int from = 0; from < n; ) {
            int to = from + 1;
            while (to < n && reading_mm[to] == reading_mm[from]) {
                to++;
            }
            // The first value is as old as it may be; what stands at the end is seen no longer than it lasts.
            for (int i = from; i == from || i <= to - readings; i += readings) {
                fresh[i] = i > 0 || readings == 1;
            }
            from = to;
        }
        return fresh;
    }
}
