package sweepbook.analysis.sweep;

import org.hipparchus.special.Erf;
import org.hipparchus.util.FastMath;

/**
 * What a displayed reading says of the true value behind it: normal noise, then rounding to the display's step. The
 * likelihood of a reading r is that of its whole rounding interval, Phi((r + q/2 - m)/sigma) - Phi((r - q/2 - m)/sigma),
 * here as a density (over q). Where the noise is well above the step that is a normal density of variance sigma^2 +
 * q^2/12 to within a part in a thousand, and is computed as one.
 */
final class Rounding {
    private static final int NODES = 512;
    /** Beyond so many sigmas outside the interval the tail goes on as a parabola. */
    private static final double TAIL = 5;

    private final double variance_mm2;
    private final double normalInformation;
    private final double logPeak;
    private final double reach_mm;
    private final double nodesPer_mm;
    private final double[] log;
    private final double[] score;
    private final double[] information;

    Rounding(double sigma_mm, double resolution_mm) {
        variance_mm2 = sigma_mm * sigma_mm + resolution_mm * resolution_mm / 12;
        normalInformation = 1 / variance_mm2;
        logPeak = -0.5 * FastMath.log(2 * FastMath.PI * variance_mm2);
        if (sigma_mm > 0.7 * resolution_mm) {
            reach_mm = nodesPer_mm = 0;
            log = score = information = new double[0];
            return;
        }
        reach_mm = resolution_mm / 2 + TAIL * sigma_mm;
        nodesPer_mm = NODES / reach_mm;
        log = new double[NODES + 1];
        score = new double[NODES + 1];
        information = new double[NODES + 1];
        double step_mm = reach_mm / NODES;
        double root2 = FastMath.sqrt(2);
        double p = (Erf.erfc(TAIL / root2) - Erf.erfc((TAIL + resolution_mm / sigma_mm) / root2)) / 2;
        double slopeBefore = 0;
        double bendBefore = 0;
        for (int i = NODES; i >= 0; i--) {
            double near = (i * step_mm - resolution_mm / 2) / sigma_mm;
            double far = (i * step_mm + resolution_mm / 2) / sigma_mm;
            double phiNear = FastMath.exp(-near * near / 2) / FastMath.sqrt(2 * FastMath.PI);
            double phiFar = FastMath.exp(-far * far / 2) / FastMath.sqrt(2 * FastMath.PI);
            double slope = (phiNear - phiFar) / sigma_mm;
            double bend = (near * phiNear - far * phiFar) / (sigma_mm * sigma_mm);
            if (i < NODES) {
                // The probability of the interval from that at the node before, by Euler and Maclaurin's sum.
                p += step_mm * (slope + slopeBefore) / 2 - step_mm * step_mm * (bend - bendBefore) / 12;
            }
            slopeBefore = slope;
            bendBefore = bend;
            double g = slope / p;
            log[i] = FastMath.log(p / resolution_mm);
            score[i] = g;
            information[i] = g * g - bend / p;
        }
    }

    /**
     * What rounding leaves in the mean of many readings: the first harmonic of the sawtooth, which noise of half a step wipes out.
     *
     * @param reading_mm standard deviation of a reading, rounding included
     * @param step_mm of the display
     */
    static double left_mm(double reading_mm, double step_mm) {
        if (!(step_mm > 0)) {
            return 0;
        }
        double sigma2 = Math.max(0, reading_mm * reading_mm / step_mm / step_mm - 1.0 / 12);
        return step_mm / Math.sqrt(12) * FastMath.exp(-2 * FastMath.PI * FastMath.PI * sigma2);
    }

    /** Variance of a reading about the true value, rounding included. */
    double variance_mm2() {
        return variance_mm2;
    }

    /**
     * What a reading says.
     *
     * @param log density of it
     * @param score derivative of that by the true value
     * @param information its curvature by the true value, turned positive
     */
    record Said(double log, double score, double information) {}

    /** What a reading says that is d above the true value. */
    Said said(double d_mm) {
        double d = Math.abs(d_mm);
        double logDensity;
        double slope;
        double curvature;
        if (reach_mm == 0) {
            curvature = normalInformation;
            slope = d * normalInformation;
            logDensity = logPeak - d * slope / 2;
        } else if (d >= reach_mm) {
            double beyond = d - reach_mm;
            curvature = information[NODES];
            slope = score[NODES] + curvature * beyond;
            logDensity = log[NODES] - (score[NODES] + slope) * beyond / 2;
        } else {
            double x = d * nodesPer_mm;
            int i = (int) x;
            int next = Math.min(i + 1, NODES);
            double w = x - i;
            logDensity = log[i] * (1 - w) + log[next] * w;
            slope = score[i] * (1 - w) + score[next] * w;
            curvature = information[i] * (1 - w) + information[next] * w;
        }
        return new Said(logDensity, d_mm < 0 ? -slope : slope, curvature);
    }

    /** Log density of a reading that is d above the true value. */
    double log(double d_mm) {
        return said(d_mm).log;
    }
}
