package sweepbook.cli.proof;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * What a person with general tools would take for the high spot of a sweep, for comparison. Each is told where the sweep
 * is, and that pressing raises the reading.
 */
public enum GeneralTool {
    /** The greatest reading. */
    MAXIMUM("maximum") {
        @Override
        double highSpot_mm(double[] readings_mm) {
            return Arrays.stream(readings_mm).max().orElse(Double.NaN);
        }
    },
    /** The greatest of the running medians of five. */
    MEDIAN_MAXIMUM("median 5, maximum") {
        @Override
        double highSpot_mm(double[] readings_mm) {
            return MAXIMUM.highSpot_mm(medians(readings_mm));
        }
    },
    /** The greatest value after smoothing by a local quadratic over eleven readings. */
    SAVITZKY_GOLAY("Savitzky-Golay 11") {
        @Override
        double highSpot_mm(double[] readings_mm) {
            return MAXIMUM.highSpot_mm(smoothed(medians(readings_mm), 5));
        }
    },
    /** The vertex of a parabola through the eleven readings about the greatest median of five. */
    PARABOLA("parabola at top") {
        @Override
        double highSpot_mm(double[] readings_mm) {
            double[] medians = medians(readings_mm);
            int top = 0;
            for (int i = 1; i < medians.length; i++) {
                if (medians[i] > medians[top]) {
                    top = i;
                }
            }
            int half = Math.min(5, Math.min(top, medians.length - 1 - top));
            return half < 1 ? medians[top] : vertex(readings_mm, top, half).orElse(medians[top]);
        }
    };

    private final String title;

    GeneralTool(String title) {
        this.title = title;
    }

    public String title() {
        return title;
    }

    abstract double highSpot_mm(double[] readings_mm);

    /**
     * The weights of a local quadratic, or cubic, over 2 half + 1 equally spaced readings, for the value in the middle
     * (Savitzky and Golay, Analytical Chemistry 36 (1964) 1627).
     */
    static double[] quadraticWeights(int half) {
        int n = 2 * half + 1;
        double squares = half * (half + 1) * (2 * half + 1) / 3.0;
        double fourths = squares * (3 * half * half + 3 * half - 1) / 5;
        double determinant = n * fourths - squares * squares;
        double[] weights = new double[n];
        for (int i = -half; i <= half; i++) {
            weights[i + half] = (fourths - squares * i * i) / determinant;
        }
        return weights;
    }

    private static double[] smoothed(double[] values, int half) {
        double[] weights = quadraticWeights(half);
        double[] smooth = new double[Math.max(0, values.length - 2 * half)];
        for (int i = 0; i < smooth.length; i++) {
            for (int k = 0; k < weights.length; k++) {
                smooth[i] += weights[k] * values[i + k];
            }
        }
        return smooth;
    }

    private static double[] medians(double[] values) {
        double[] medians = values.clone();
        for (int i = 2; i < values.length - 2; i++) {
            double[] window = Arrays.copyOfRange(values, i - 2, i + 3);
            Arrays.sort(window);
            medians[i] = window[2];
        }
        return medians;
    }

    /** Empty where the parabola has no top among its readings. */
    private static OptionalDouble vertex(double[] values, int middle, int half) {
        double[] weights = quadraticWeights(half);
        double value = 0;
        double slope = 0;
        double curvature = 0;
        double squares = half * (half + 1) * (2 * half + 1) / 3.0;
        for (int i = -half; i <= half; i++) {
            double v = values[middle + i];
            value += weights[i + half] * v;
            slope += i * v / squares;
            curvature += (i * i - squares / (2 * half + 1)) * v;
        }
        double fourths = squares * (3 * half * half + 3 * half - 1) / 5;
        curvature /= fourths - squares * squares / (2 * half + 1);
        return curvature < 0 && Math.abs(slope) <= -2 * curvature * half
                ? OptionalDouble.of(value - slope * slope / (4 * curvature))
                : OptionalDouble.empty();
    }
}
