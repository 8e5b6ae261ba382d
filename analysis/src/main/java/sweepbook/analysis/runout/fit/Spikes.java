package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/** Single readings that lie off their neighbours by more than the local motion allows. */
public final class Spikes {
    private static final int HALF_WINDOW = 3;
    /** Departures from the local median are judged by those of nine readings in ten, which a few spikes leave alone. */
    private static final double QUANTILE = 0.9;

    private static final double TIMES_QUANTILE = 6;

    private Spikes() {}

    /** Which readings to keep. */
    public static boolean[] keep(double[] reading_mm, double step_mm) {
        int n = reading_mm.length;
        double[] off = new double[n];
        double[] window = new double[2 * HALF_WINDOW + 1];
        for (int i = 0; i < n; i++) {
            int from = Math.max(0, Math.min(i - HALF_WINDOW, n - window.length));
            int size = Math.min(window.length, n);
            for (int j = 0; j < size; j++) {
                double r = reading_mm[from + j];
                int k = j;
                for (; k > 0 && window[k - 1] > r; k--) {
                    window[k] = window[k - 1];
                }
                window[k] = r;
            }
            off[i] = Math.abs(reading_mm[i] - window[size / 2]);
        }
        double limit = TIMES_QUANTILE * quantile(off, QUANTILE) + 1.5 * step_mm;
        boolean[] keep = new boolean[n];
        for (int i = 0; i < n; i++) {
            boolean edge = i < HALF_WINDOW || i >= n - HALF_WINDOW;
            keep[i] = off[i] <= (edge ? 3 : 1) * limit;
        }
        return keep;
    }

    /** A quantile, from no more than some 20,000 of the values where there are very many. */
    public static double quantile(double[] values, double share) {
        int stride = 1 + values.length / 20_000;
        double[] some = new double[(values.length + stride - 1) / stride];
        for (int i = 0; i < some.length; i++) {
            some[i] = values[i * stride];
        }
        Arrays.sort(some);
        return some[(int) Math.min(some.length - 1, Math.floor(share * some.length))];
    }

    /** Standard deviation from the median absolute value (1.4826, Hampel 1974). */
    public static double robustSigma(double[] residual) {
        double[] size = new double[residual.length];
        for (int i = 0; i < size.length; i++) {
            size[i] = Math.abs(residual[i]);
        }
        return 1.4826 * quantile(size, 0.5);
    }
}
