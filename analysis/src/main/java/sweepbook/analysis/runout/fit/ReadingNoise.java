package sweepbook.analysis.runout.fit;

import org.hipparchus.special.Erf;

/**
 * What a reading's departure says about the model: the slope of its log likelihood, and its information. Plain: normal
 * noise. Rounded: the truth lies anywhere in the display's step about the reading, so that the likelihood is that of
 * the whole step; a reading that stands still then carries what it knows, no more. Used by one thread.
 */
final class ReadingNoise {
    /** Below this share of a step the likelihood of a step is too steep to climb. */
    private static final double LEAST_SHARE = 0.2;
    /** Above it rounding is as good as more noise. */
    private static final double MOST_SHARE = 0.6;

    private static final double ROOT_2PI = Math.sqrt(2 * Math.PI);

    private final double step_mm;
    private final boolean rounded;
    private double scatter_mm;
    private double sigma_mm;
    private double degreesOfFreedom = 1;
    private double score;
    private double information;

    ReadingNoise(double step_mm, boolean rounded) {
        this.step_mm = step_mm;
        this.rounded = rounded && step_mm > 0;
    }

    /** Starts from departures that still hold everything. */
    void begin(double[] residual_mm) {
        degreesOfFreedom = residual_mm.length;
        setScatter(residual_mm);
        sigma_mm = scatter_mm;
    }

    void update(double[] residual_mm, double degreesOfFreedom) {
        this.degreesOfFreedom = Math.max(1, degreesOfFreedom);
        double before = sigma_mm;
        setScatter(residual_mm);
        double apart = scatter_mm * scatter_mm - step_mm * step_mm / 12;
        sigma_mm = Math.sqrt(Math.max(apart, LEAST_SHARE * LEAST_SHARE * step_mm * step_mm));
        if (usesSteps() && before < 2 * step_mm) {
            sigma_mm =
                    Math.max(expectedSigma(residual_mm, Math.min(before, MOST_SHARE * step_mm)), LEAST_SHARE * step_mm);
        }
    }

    private boolean usesSteps() {
        return rounded && sigma_mm < MOST_SHARE * step_mm;
    }

    private void setScatter(double[] residual_mm) {
        double sum = 0;
        for (double r : residual_mm) {
            sum += r * r;
        }
        // Two readings' worth of what is known beforehand, the rounding, keep a chance fit from looking sure.
        double rounding = step_mm * step_mm / 12;
        scatter_mm = Math.max(Math.sqrt((sum + 2 * rounding) / (degreesOfFreedom + 2)), 1e-9);
    }

    /** Mean square departure of the truth from the model, given that it lies within each reading's step. */
    private double expectedSigma(double[] residual_mm, double sigma) {
        double sum = 0;
        for (double r : residual_mm) {
            double hi = (r + step_mm / 2) / sigma;
            double lo = (r - step_mm / 2) / sigma;
            double inside = Erf.erf(lo / Math.sqrt(2), hi / Math.sqrt(2)) / 2;
            sum += inside > 1e-12 ? 1 - (hi * density(hi) - lo * density(lo)) / inside : r * r / (sigma * sigma);
        }
        return sigma * Math.sqrt(sum / degreesOfFreedom);
    }

    private static double density(double z) {
        return Math.exp(-z * z / 2) / ROOT_2PI;
    }

    void at(double residual_mm) {
        if (usesSteps()) {
            double hi = (residual_mm + step_mm / 2) / sigma_mm;
            double lo = (residual_mm - step_mm / 2) / sigma_mm;
            double inside = Erf.erf(lo / Math.sqrt(2), hi / Math.sqrt(2)) / 2;
            if (inside > 1e-12) {
                double slope = (density(lo) - density(hi)) / inside;
                score = slope / sigma_mm;
                information = Math.max(
                        (slope * slope + (hi * density(hi) - lo * density(lo)) / inside) / (sigma_mm * sigma_mm), 0);
                return;
            }
        }
        score = residual_mm / (scatter_mm * scatter_mm);
        information = 1 / (scatter_mm * scatter_mm);
    }

    /** The same for so many residuals from one on. */
    void at(double[] residual_mm, int from, int count, DesignRows rows) {
        for (int r = 0; r < count; r++) {
            at(residual_mm[from + r]);
            rows.information()[r] = information;
            rows.score()[r] = score;
        }
    }

    double score() {
        return score;
    }

    double information() {
        return information;
    }

    /** Of normal noise with the present scatter. */
    double logLikelihood(double[] residual_mm) {
        double sum = 0;
        for (double r : residual_mm) {
            sum += r * r;
        }
        return -(2 * residual_mm.length * Math.log(scatter_mm) + sum / (scatter_mm * scatter_mm)) / 2;
    }

    /**
     * Variance of the mean rounding error. Normal noise of sigma leaves of it a wave of amplitude
     * q / pi * exp(-2 pi^2 sigma^2 / q^2) (the first term of its Fourier series; the others are far smaller).
     */
    double roundingLeft_mm2() {
        if (step_mm == 0) {
            return 0;
        }
        double share = Math.max(0, scatter_mm * scatter_mm / (step_mm * step_mm) - 1 / 12.0);
        double amplitude_mm = step_mm / Math.PI * Math.exp(-2 * Math.PI * Math.PI * share);
        return amplitude_mm * amplitude_mm / 2;
    }

    double scatter_mm() {
        return scatter_mm;
    }

    double degreesOfFreedom() {
        return degreesOfFreedom;
    }
}
