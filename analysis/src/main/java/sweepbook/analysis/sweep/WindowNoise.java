package sweepbook.analysis.sweep;

import org.hipparchus.util.KthSelector;

/**
 * The noise of a trace, from short windows about lines of their own: the quieter ones hold no spike and no turn, and repeats of a
 * slow display do not make them quieter. The few quietest tell it roughly wherever there are any; where most of a trace is at rest
 * or moves evenly, a quarter or half of all tell it better. Motion and spikes only make it look greater, so the least is taken.
 */
final class WindowNoise {
    private static final int WINDOW = 5;
    /** The quietest windows that tell the noise, as a share of all, in a trace of few readings and in one of many. */
    private static final double QUIET_OF_FEW = 0.03;

    private static final double QUIET_OF_MANY = 0.1;
    private static final int FEW = 100;
    private static final int MANY = 400;
    /** So many tell it well enough; of more, every second or third is taken. */
    private static final int MOST_WINDOWS = 1 << 12;
    /** A quarter and half of chi-square with WINDOW - 2 = 3 degrees of freedom lie below; tables of the distribution. */
    private static final double CHI_SQUARE_QUARTER = 1.2125;

    private static final double CHI_SQUARE_HALF = 2.366;

    private WindowNoise() {}

    /** Standard deviation of a reading about the motion, its rounding included; 0 where there are too few to tell. */
    static double of(double[] reading_mm) {
        int windows = reading_mm.length - WINDOW + 1;
        if (reading_mm.length < WINDOW) {
            return 0;
        }
        int stride = (windows + MOST_WINDOWS - 1) / MOST_WINDOWS;
        int n = windows / stride;
        double[] squares = new double[n];
        for (int i = 0; i < n; i++) {
            squares[i] = squares(reading_mm, i * stride);
        }
        double many = Math.max(0, Math.min(1, (n - FEW) / (double) (MANY - FEW)));
        double quiet = QUIET_OF_FEW + (QUIET_OF_MANY - QUIET_OF_FEW) * many;
        // The lower quantiles x of chi-square with WINDOW - 2 = 3 degrees of freedom: probability sqrt(2 / pi) x^1.5 /
        // 3.
        double chiSquare = Math.pow(3 * quiet * Math.sqrt(Math.PI / 2), 2.0 / 3);
        KthSelector select = new KthSelector();
        double quietest = select.select(squares, null, (int) (quiet * n)) / chiSquare;
        double quarter = select.select(squares, null, n / 4) / CHI_SQUARE_QUARTER;
        double half = select.select(squares, null, n / 2) / CHI_SQUARE_HALF;
        return Math.sqrt(Math.min(quietest, Math.min(quarter, half)));
    }

    /** About a line of the readings of one window. */
    private static double squares(double[] reading_mm, int from) {
        double mean = 0;
        double slope = 0;
        for (int i = 0; i < WINDOW; i++) {
            mean += reading_mm[from + i];
            slope += (i - (WINDOW - 1) / 2.0) * reading_mm[from + i];
        }
        mean /= WINDOW;
        slope *= 12.0 / (WINDOW * (WINDOW * WINDOW - 1));
        double squares = 0;
        for (int i = 0; i < WINDOW; i++) {
            double off = reading_mm[from + i] - mean - slope * (i - (WINDOW - 1) / 2.0);
            squares += off * off;
        }
        return squares;
    }
}
