package sweepbook.analysis.runout;

import java.util.function.IntToDoubleFunction;
import org.hipparchus.linear.RealMatrix;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.TurnFit;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The greatest less the least of a curve made of a fit's undulations. Its uncertainty is that of the two points, of
 * their places (the square of a slope that noise makes, over the curvature there), and of what noise hides.
 */
final class PeakToValley {
    /** Mean square of half a squared standard normal deviate. */
    private static final double PLACE = 0.75;

    private final TurnFit fit;
    private final RealMatrix covariance;
    private final double[] hidden_mm2;
    private final double unseen_mm2;

    /**
     * @param covariance of the fit's mean, drift and undulations
     * @param hidden_mm2 variance of each part of an undulation that is not fitted, by its number
     * @param unseen_mm2 variance at one point by undulations beyond those
     */
    PeakToValley(TurnFit fit, RealMatrix covariance, double[] hidden_mm2, double unseen_mm2) {
        this.fit = fit;
        this.covariance = covariance;
        this.hidden_mm2 = hidden_mm2;
        this.unseen_mm2 = unseen_mm2;
    }

    /**
     * @param curve has the fit's undulations times a weight each
     * @param passed that weight, by undulation number
     */
    Estimate of(Profile curve, IntToDoubleFunction passed) {
        double[] f = curve.sampled(Figures.STEPS);
        int max = 0;
        int min = 0;
        for (int i = 1; i < f.length; i++) {
            max = f[i] > f[max] ? i : max;
            min = f[i] < f[min] ? i : min;
        }
        double high_rad = 2 * Math.PI * max / f.length;
        double low_rad = 2 * Math.PI * min / f.length;
        double variance = variance(difference(high_rad, low_rad, passed))
                + hidden(high_rad - low_rad)
                + 2 * (unseen_mm2 + fit.roundingLeft_mm2())
                + ofPlace(curve, high_rad, passed)
                + ofPlace(curve, low_rad, passed);
        return new Estimate(f[max] - f[min], Math.sqrt(variance), fit.degreesOfFreedom());
    }

    /** How the difference of a curve at two angles depends on the fit's undulations. */
    private double[] difference(double to_rad, double from_rad, IntToDoubleFunction passed) {
        double[] gradient = new double[covariance.getRowDimension()];
        int[] upr = fit.profile().upr();
        for (int j = 0; j < upr.length; j++) {
            double weight = passed.applyAsDouble(upr[j]);
            gradient[fit.column(j)] = weight * (Math.cos(upr[j] * to_rad) - Math.cos(upr[j] * from_rad));
            gradient[fit.column(j) + 1] = weight * (Math.sin(upr[j] * to_rad) - Math.sin(upr[j] * from_rad));
        }
        return gradient;
    }

    /** How the slope (power 1) or curvature (power 2) of a curve depends on the fit's undulations. */
    private double[] derivative(int power, double angle_rad, IntToDoubleFunction passed) {
        double[] gradient = new double[covariance.getRowDimension()];
        int[] upr = fit.profile().upr();
        for (int j = 0; j < upr.length; j++) {
            double weight = passed.applyAsDouble(upr[j]) * Math.pow(upr[j], power);
            double turned = upr[j] * angle_rad + power * Math.PI / 2;
            gradient[fit.column(j)] = weight * Math.cos(turned);
            gradient[fit.column(j) + 1] = weight * Math.sin(turned);
        }
        return gradient;
    }

    private double variance(double[] gradient) {
        double sum = 0;
        for (int j = 0; j < gradient.length; j++) {
            for (int k = 0; k < gradient.length; k++) {
                sum += gradient[j] * gradient[k] * covariance.getEntry(j, k);
            }
        }
        return Math.max(sum, 0);
    }

    /** Variance of the difference of two points by undulations that noise hides. */
    private double hidden(double apart_rad) {
        double sum = 0;
        for (int n = 2; n < hidden_mm2.length; n++) {
            sum += hidden_mm2[n] * (2 - 2 * Math.cos(n * apart_rad));
        }
        return sum;
    }

    /** Mean square of what a shifted extreme adds. */
    private double ofPlace(Profile curve, double angle_rad, IntToDoubleFunction passed) {
        double slope = variance(derivative(1, angle_rad, passed));
        double bend = variance(derivative(2, angle_rad, passed));
        for (int n = 2; n < hidden_mm2.length; n++) {
            slope += n * n * hidden_mm2[n];
            bend += n * n * n * n * hidden_mm2[n];
        }
        double curvature = 0;
        for (int j = 0; j < curve.upr().length; j++) {
            double t = curve.upr()[j] * angle_rad;
            curvature += curve.upr()[j]
                    * curve.upr()[j]
                    * (curve.cos_mm()[j] * Math.cos(t) + curve.sin_mm()[j] * Math.sin(t));
        }
        // A flat extreme has a place as good as any other beside it: its own noise bends it.
        double square = curvature * curvature + bend;
        return square == 0 ? 0 : PLACE * slope * slope / square;
    }
}
