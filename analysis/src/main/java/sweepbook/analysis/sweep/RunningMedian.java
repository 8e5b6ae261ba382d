package sweepbook.analysis.sweep;

/** The median of the last five values: two wrong ones in five do not move it far. Used by one thread. */
final class RunningMedian {
    private static final int WINDOW = 5;

    private final double[] last = new double[WINDOW];
    private int values;
    private int next;

    /** Takes the next value and gives the median of those in the window, of an even number the upper one. */
    double add(double value) {
        last[next] = value;
        next = next + 1 == WINDOW ? 0 : next + 1;
        values = Math.min(values + 1, WINDOW);
        return switch (values) {
            case 1 -> value;
            case 2 -> Math.max(last[0], last[1]);
            case 3 -> of(last[0], last[1], last[2]);
            case 4 -> of(last[0], last[1], last[2], last[3], Double.POSITIVE_INFINITY);
            default -> of(last[0], last[1], last[2], last[3], last[4]);
        };
    }

    static double of(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }

    /** Of the four others, the lowest and the highest are none; neither are those of the three that are left with the last. */
    static double of(double a, double b, double c, double d, double e) {
        double high = Math.min(Math.max(a, b), Math.max(c, d));
        double low = Math.max(Math.min(a, b), Math.min(c, d));
        return of(low, high, e);
    }
}
