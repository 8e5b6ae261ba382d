package sweepbook.analysis.runout.fit;

/**
 * A slow change of the reading as a polynomial of time, in Legendre polynomials over the trace, which keep its parts
 * apart.
 *
 * @param degree of the polynomial; its constant part is the mean
 */
record Drift(double from_s, double to_s, int degree) {
    /** Puts the polynomials' values at a time into the first places of a row of the design. */
    void fill(double time_s, double[] x) {
        double tau = 2 * (time_s - from_s) / (to_s - from_s) - 1;
        x[0] = 1;
        double before = 1;
        double now = tau;
        for (int d = 1; d <= degree; d++) {
            x[d] = now;
            double next = ((2 * d + 1) * tau * now - d * before) / (d + 1);
            before = now;
            now = next;
        }
    }

    /** The drift at a time, without the mean. */
    double at_mm(double time_s, double[] beta) {
        double[] x = new double[degree + 1];
        fill(time_s, x);
        double sum = 0;
        for (int d = 1; d <= degree; d++) {
            sum += beta[d] * x[d];
        }
        return sum;
    }
}
