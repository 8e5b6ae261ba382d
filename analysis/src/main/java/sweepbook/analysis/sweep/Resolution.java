package sweepbook.analysis.sweep;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;

/** The step of an indicator's display, told from the differences between its readings. */
final class Resolution {
    /** Differences closer than this are the same: far below any display, far above the rounding of a double. */
    private static final double SAME_mm = 1e-8;

    private static final int LOOKED_AT = 4096;

    /** No display has a step of more digits; what comes after them is what readings leave that are not exact in binary. */
    private static final MathContext DIGITS = new MathContext(9);

    private Resolution() {}

    /**
     * The greatest step of which nearly all differences between neighbours are whole multiples; NaN where all readings
     * are equal or none is.
     */
    static double of(double[] reading_mm) {
        double[] steps = new double[Math.min(reading_mm.length, LOOKED_AT)];
        int n = 0;
        int stride = Math.max(1, reading_mm.length / LOOKED_AT);
        for (int i = 1; i < reading_mm.length && n < steps.length; i += stride) {
            double step = Math.abs(reading_mm[i] - reading_mm[i - 1]);
            if (step > SAME_mm) {
                steps[n++] = step;
            }
        }
        if (n == 0) {
            return Double.NaN;
        }
        double[] sorted = Arrays.copyOf(steps, n);
        Arrays.sort(sorted);
        // The step itself may never occur alone (2q and 3q only), so the greatest common divisor of small ones is
        // tried.
        double candidate = sorted[0];
        for (int i = 1; i < Math.min(n, 64); i++) {
            candidate = commonDivisor(candidate, sorted[i]);
        }
        int whole = 0;
        double multiples = 0;
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double ratio = sorted[i] / candidate;
            double multiple = Math.rint(ratio);
            if (Math.abs(ratio - multiple) < 0.02) {
                whole++;
                multiples += multiple;
                sum += sorted[i];
            }
        }
        return candidate > 100 * SAME_mm && whole >= 0.97 * n
                ? new BigDecimal(sum / multiples).round(DIGITS).doubleValue()
                : Double.NaN;
    }

    private static double commonDivisor(double a, double b) {
        double x = Math.max(a, b);
        double y = Math.min(a, b);
        while (y > 100 * SAME_mm) {
            double rest = x - y * Math.rint(x / y);
            x = y;
            y = Math.abs(rest);
        }
        return x;
    }
}
