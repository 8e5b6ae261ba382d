package sweepbook.analysis.sweep;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;

/** The step of an indicator's display, told from the differences between its readings, or from their digits. */
final class Resolution {
    /** No display steps finer; what is less is arithmetic. */
    private static final double FINEST_mm = 1e-6;
    /** Differences closer than this are the same: far below any display, far above the rounding of a double. */
    private static final double SAME_mm = 1e-8;

    private static final int LOOKED_AT = 4096;
    /** A spike or two and a click have a common divisor by chance. */
    private static final int FEWEST_CHANGES = 6;

    /** No display has a step of more digits; what comes after them is what readings leave that are not exact in binary. */
    private static final MathContext DIGITS = new MathContext(9);

    private Resolution() {}

    /**
     * The greatest step of which nearly all differences between neighbours are whole multiples. Where there is none, or few
     * readings differ, it is the last digit that was written.
     *
     * @param lastDigit_mm NaN where nothing was written: then the step is NaN where all readings are equal, or no step is seen
     */
    static double of(double[] reading_mm, double lastDigit_mm) {
        double[] steps = new double[Math.min(reading_mm.length, LOOKED_AT)];
        int n = 0;
        int stride = Math.max(1, reading_mm.length / LOOKED_AT);
        for (int i = 1; i < reading_mm.length && n < steps.length; i += stride) {
            double step = Math.abs(reading_mm[i] - reading_mm[i - 1]);
            if (step > SAME_mm) {
                steps[n++] = step;
            }
        }
        double written_mm = Math.max(lastDigit_mm, FINEST_mm);
        if (n == 0 || n < FEWEST_CHANGES && !Double.isNaN(written_mm)) {
            return written_mm;
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
        return candidate > FINEST_mm && whole >= 0.97 * n
                ? new BigDecimal(sum / multiples).round(DIGITS).doubleValue()
                : written_mm;
    }

    private static double commonDivisor(double a, double b) {
        double x = Math.max(a, b);
        double y = Math.min(a, b);
        while (y > FINEST_mm) {
            double rest = x - y * Math.rint(x / y);
            x = y;
            y = Math.abs(rest);
        }
        return x;
    }
}
