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
    private static final int NODES = 160;
    /** Beyond so many sigmas outside the interval the tail goes on as a parabola. */
    private static final double TAIL = 5;
    /** In log likelihood; a reading so much less likely than a spike is one. */
    private static final double CERTAINLY_A_SPIKE = 14;

    private static final int NODES_OR_SPIKE = 64;

    private final double sigma_mm;
    private final double resolution_mm;
    private final double variance_mm2;
    /** The tail, a parabola, begins here; at once where all is one. */
    private final double reach_mm;

    private final Said last;
    /** Before the tail. */
    private final SaidCurve curve;

    Rounding(double sigma_mm, double resolution_mm) {
        this(sigma_mm, resolution_mm, false);
    }

    /**
     * Of readings that lie anywhere in their steps, and hardly two of them in the same. The most probable motion puts more of them
     * into the midst of their steps than chance would, where they say little: what they say is counted by its mean over all that
     * may be read.
     */
    static Rounding ofLeaps(double sigma_mm, double resolution_mm) {
        return new Rounding(sigma_mm, resolution_mm, true);
    }

    private Rounding(double sigma_mm, double resolution_mm, boolean leaps) {
        this.sigma_mm = sigma_mm;
        this.resolution_mm = resolution_mm;
        variance_mm2 = sigma_mm * sigma_mm + resolution_mm * resolution_mm / 12;
        if (sigma_mm > 0.7 * resolution_mm) {
            reach_mm = 0;
            last = new Said(-0.5 * FastMath.log(2 * FastMath.PI * variance_mm2), 0, 1 / variance_mm2);
            curve = null;
            return;
        }
        reach_mm = resolution_mm / 2 + TAIL * sigma_mm;
        double step_mm = reach_mm / NODES;
        double root2 = FastMath.sqrt(2);
        double rootTwoPi = FastMath.sqrt(2 * FastMath.PI);
        double p = (Erf.erfc(TAIL / root2) - Erf.erfc((TAIL + resolution_mm / sigma_mm) / root2)) / 2;
        double slopeBefore = 0;
        double bendBefore = 0;
        Said[] nodes = new Said[NODES + 1];
        for (int i = NODES; i >= 0; i--) {
            double near = (i * step_mm - resolution_mm / 2) / sigma_mm;
            double far = (i * step_mm + resolution_mm / 2) / sigma_mm;
            double phiNear = Math.exp(-near * near / 2) / rootTwoPi;
            double phiFar = Math.exp(-far * far / 2) / rootTwoPi;
            double slope = (phiNear - phiFar) / sigma_mm;
            double bend = (near * phiNear - far * phiFar) / (sigma_mm * sigma_mm);
            if (i < NODES) {
                // The probability of the interval from that at the node before, by Euler and Maclaurin's sum.
                p += step_mm * (slope + slopeBefore) / 2 - step_mm * step_mm * (bend - bendBefore) / 12;
            }
            slopeBefore = slope;
            bendBefore = bend;
            double g = slope / p;
            nodes[i] = new Said(Math.log(p / resolution_mm), g, g * g - bend / p);
        }
        last = nodes[NODES];
        curve = new SaidCurve(reach_mm, leaps ? withFisherInformation(nodes, step_mm) : nodes);
    }

    /** The same, the information its mean over where in its step a value lies. */
    private static Said[] withFisherInformation(Said[] nodes, double step_mm) {
        double mean = 0;
        for (int i = 1; i < nodes.length; i++) {
            mean += 2 * step_mm * Math.exp(nodes[i].log()) * nodes[i].score() * nodes[i].score();
        }
        Said[] fisher = new Said[nodes.length];
        for (int i = 0; i < nodes.length; i++) {
            fisher[i] = new Said(nodes[i].log(), nodes[i].score(), mean);
        }
        return fisher;
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
     * @param information its curvature by the true value, turned positive, or the mean of that
     */
    record Said(double log, double score, double information) {}

    /** What a reading says that is d above the true value. */
    Said said(double d_mm) {
        double beyond_mm = Math.abs(d_mm) - reach_mm;
        if (beyond_mm < 0) {
            return curve.said(d_mm);
        }
        double slope = last.score + last.information * beyond_mm;
        return new Said(last.log - (last.score + slope) * beyond_mm / 2, d_mm < 0 ? -slope : slope, last.information);
    }

    /**
     * The same where a reading may be a spike, which says nothing.
     *
     * @param logFlat log density of a spike, beside that of a reading that is none
     */
    SaidCurve orSpike(double logFlat) {
        double far = FastMath.sqrt(2 * Math.max(0, log(0) - logFlat + CERTAINLY_A_SPIKE));
        double spikesFrom_mm = resolution_mm / 2 + far * sigma_mm;
        Said[] nodes = new Said[NODES_OR_SPIKE + 1];
        for (int i = 0; i < NODES_OR_SPIKE; i++) {
            Said said = said(i * spikesFrom_mm / NODES_OR_SPIKE);
            double odds = Math.exp(logFlat - said.log);
            double belongs = 1 / (1 + odds);
            nodes[i] = new Said(said.log + Math.log(1 + odds), belongs * said.score, belongs * said.information);
        }
        nodes[NODES_OR_SPIKE] = new Said(logFlat, 0, 0);
        return new SaidCurve(spikesFrom_mm, nodes);
    }

    /** Log density of a reading that is d above the true value. */
    double log(double d_mm) {
        return said(d_mm).log;
    }
}
