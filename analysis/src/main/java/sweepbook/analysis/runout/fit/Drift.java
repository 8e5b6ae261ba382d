package sweepbook.analysis.runout.fit;

/**
 * A slow change of the reading: none, or a straight line through nothing at the middle of the trace, which keeps it apart
 * from the mean.
 *
 * @param degree 0 for none, 1 for the line
 */
record Drift(double from_s, double to_s, int degree) {
    private double tau(double time_s) {
        return 2 * (time_s - from_s) / (to_s - from_s) - 1;
    }

    /** Puts mean and drift at a time into the first places of the row of the design that begins there. */
    void fill(double time_s, double[] x, int begin) {
        x[begin] = 1;
        if (degree == 1) {
            x[begin + 1] = tau(time_s);
        }
    }

    /** The drift at a time, without the mean. */
    double at_mm(double time_s, double[] beta) {
        return degree == 0 ? 0 : beta[1] * tau(time_s);
    }
}
