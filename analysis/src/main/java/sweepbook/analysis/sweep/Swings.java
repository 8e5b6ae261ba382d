package sweepbook.analysis.sweep;

import java.util.List;

/** Tells the turns of a stand that swings out after it was touched from those of a hand that sweeps then. */
final class Swings {
    /** Fewer may be a hand's. */
    private static final int FEWEST = 4;
    /** From a turn to the next; a hand is slower. */
    private static final double LONGEST_s = 0.3;
    /** A swing takes as long as the one before, within this part. */
    private static final double REGULAR = 0.35;

    private Swings() {}

    /**
     * How many turns from a trace's first on are those of its stand: they follow each other as a clock ticks, and never swing out
     * farther than before.
     *
     * @param least_mm by so much noise moves a turn
     */
    static int count(List<Turn> turns, double[] time_s, double least_mm) {
        int count = Math.min(1, turns.size());
        double before_mm = Double.POSITIVE_INFINITY;
        double before_s = Double.NaN;
        while (count < turns.size()) {
            Turn from = turns.get(count - 1);
            Turn to = turns.get(count);
            double swing_mm = Math.abs(to.level_mm() - from.level_mm());
            double swing_s = time_s[to.index()] - time_s[from.index()];
            boolean regular = !(Math.abs(swing_s - before_s) > REGULAR * before_s);
            if (swing_s > LONGEST_s || !regular || swing_mm > before_mm + least_mm / 2) {
                break;
            }
            before_mm = swing_mm;
            before_s = swing_s;
            count++;
        }
        return count < FEWEST || count == turns.size() ? 0 : count;
    }
}
