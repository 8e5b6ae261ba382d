package sweepbook.analysis.sweep;

/** The median of the last five values: two wrong ones in five do not move it far. Used by one thread. */
final class RunningMedian {
    private static final int WINDOW = 5;

    private final double[] last = new double[WINDOW];
    private final double[] sorted = new double[WINDOW];
    private long values;

    /** Takes the next value and gives the median of those in the window. */
    double add(double value) {
        last[(int) (values++ % WINDOW)] = value;
        int n = (int) Math.min(values, WINDOW);
        for (int i = 0; i < n; i++) {
            int at = i;
            for (; at > 0 && sorted[at - 1] > last[i]; at--) {
                sorted[at] = sorted[at - 1];
            }
            sorted[at] = last[i];
        }
        return sorted[n / 2];
    }
}
