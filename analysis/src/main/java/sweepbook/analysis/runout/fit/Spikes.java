package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/** Single readings that lie off their neighbours by more than the local motion allows. */
public final class Spikes {
    private static final int HALF_WINDOW = 3;
    private static final int WINDOW = 2 * HALF_WINDOW + 1;
    /** Departures from the local median are judged by those of nine readings in ten, which a few spikes leave alone. */
    private static final double QUANTILE = 0.9;

    private static final double TIMES_QUANTILE = 6;

    private Spikes() {}

    /** Which readings to keep. */
    public static boolean[] keep(double[] reading_mm, double step_mm) {
        int n = reading_mm.length;
        double[] off = new double[some(n)];
        for (int i = 0; i < off.length; i++) {
            off[i] = offMedian_mm(reading_mm, i * stride(n));
        }
        double limit = TIMES_QUANTILE * quantile(off, QUANTILE) + 1.5 * step_mm;
        boolean[] keep = new boolean[n];
        for (int i = 0; i < n; i++) {
            boolean edge = i < HALF_WINDOW || i >= n - HALF_WINDOW;
            keep[i] = isNearMedian(reading_mm, i, (edge ? 3 : 1) * limit);
        }
        return keep;
    }

    /** The window about a reading, moved into the trace at its ends. */
    private static int windowFrom(int n, int i) {
        return Math.max(0, Math.min(i - HALF_WINDOW, n - WINDOW));
    }

    private static double offMedian_mm(double[] reading_mm, int i) {
        int from = windowFrom(reading_mm.length, i);
        double[] window = Arrays.copyOfRange(reading_mm, from, Math.min(reading_mm.length, from + WINDOW));
        Arrays.sort(window);
        return Math.abs(reading_mm[i] - window[window.length / 2]);
    }

    /** Without sorting: the median lies within the limit if neither half of the window lies beyond it. */
    private static boolean isNearMedian(double[] reading_mm, int i, double limit) {
        int from = windowFrom(reading_mm.length, i);
        int size = Math.min(WINDOW, reading_mm.length - from);
        int below = 0;
        int above = 0;
        for (int j = from; j < from + size; j++) {
            double off = reading_mm[j] - reading_mm[i];
            below += off < -limit ? 1 : 0;
            above += off > limit ? 1 : 0;
        }
        return below <= size / 2 && above <= size - 1 - size / 2;
    }

    private static int stride(int n) {
        return 1 + n / 20_000;
    }

    private static int some(int n) {
        return (n + stride(n) - 1) / stride(n);
    }

    /** A quantile, from no more than some 20,000 of the values where there are very many. */
    public static double quantile(double[] values, double share) {
        double[] some = new double[some(values.length)];
        for (int i = 0; i < some.length; i++) {
            some[i] = values[i * stride(values.length)];
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
