package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * The normal equations of one Gauss-Newton step: those of mean, drift and undulations, bordered by those of the unknown
 * angles, whose band is eliminated. What is left is the information on the profile with the angles' uncertainty in it.
 */
final class TurnEquations {
    /** Keeps the factors real where two undulations cannot be told apart; far below any figure that matters. */
    private static final double RIDGE = 1e-10;

    private final int p;
    private final AngleWander wander;
    /** Lower triangle; the last row is the right hand side. */
    private final double[][] ofProfile;

    private final double[][] band;
    /** A row for each unknown angle: how it is tied to the p coefficients, then its right hand side. */
    private final double[] border;

    /** @param wander of the unknown angles; null where all are stated */
    TurnEquations(int p, AngleWander wander) {
        this.p = p;
        this.wander = wander;
        ofProfile = new double[p + 1][p + 1];
        band = new double[BandedCholesky.BAND + 1][];
        for (int b = 0; b < band.length && wander != null; b++) {
            band[b] = wander.prior[b].clone();
        }
        border = new double[wander == null ? 0 : wander.state.length * (p + 1)];
    }

    /** One reading, by its row of the design. */
    void add(double[] x, double information, double score) {
        for (int j = 0; j < p; j++) {
            addTo(ofProfile[j], information * x[j], x, j + 1);
        }
        addTo(ofProfile[p], score, x, p);
    }

    private static void addTo(double[] row, double factor, double[] x, int count) {
        for (int k = 0; k < count; k++) {
            row[k] += factor * x[k];
        }
    }

    /** What the same reading says of its angle: by the profile's slope there, through the spline's basis. */
    void addAngle(double[] x, int interval, double[] basis, double slope, double information, double score) {
        int at = 2 * interval;
        AngleWander.addOuter(band, at, basis, information * slope * slope);
        for (int q = 0; q < basis.length; q++) {
            int row = (at + q) * (p + 1);
            double factor = information * slope * basis[q];
            for (int k = 0; k < p; k++) {
                border[row + k] += factor * x[k];
            }
            border[row + p] += score * slope * basis[q];
        }
    }

    /**
     * Where the step leads, and what the equations say of the place where it begins.
     *
     * @param change of mean, drift and undulations
     * @param angleChange of the unknown angles and speeds
     * @param covariance of mean, drift and undulations
     * @param angleCost what the angles' knowledge holds against them
     * @param logDeterminant of all information
     * @param anglesFound of the unknown angles, how many the readings decide and not the motion's own stiffness
     */
    record Step(
            double[] change,
            double[] angleChange,
            RealMatrix covariance,
            double angleCost,
            double logDeterminant,
            double anglesFound) {}

    Step solve() {
        double angleCost = 0;
        double logDeterminant = 0;
        double anglesFound = 0;
        BandedCholesky factor = null;
        if (wander != null) {
            angleCost = wander.pull(border, p, p + 1);
            for (int q = 0; q < wander.state.length; q++) {
                band[0][q] *= 1 + RIDGE;
            }
            factor = new BandedCholesky(band);
            logDeterminant = factor.logDeterminant();
            anglesFound = wander.state.length - knownAlready(factor.inverseBand());
            factor.forward(border, p + 1);
            for (int q = 0; q < wander.state.length; q++) {
                eliminate(q * (p + 1), factor.pivot(q));
            }
        }
        CholeskyDecomposition schur = new CholeskyDecomposition(information(), 1e-9, 1e-300);
        for (int j = 0; j < p; j++) {
            logDeterminant += 2 * Math.log(schur.getL().getEntry(j, j));
        }
        double[] right = Arrays.copyOf(ofProfile[p], p);
        double[] change =
                schur.getSolver().solve(new ArrayRealVector(right, false)).toArray();
        return new Step(
                change,
                factor == null ? new double[0] : anglesAfter(change, factor),
                schur.getSolver().getInverse(),
                angleCost,
                logDeterminant,
                anglesFound);
    }

    private void eliminate(int row, double pivot) {
        for (int j = 0; j <= p; j++) {
            double factor = border[row + j] / pivot;
            double[] of = ofProfile[j];
            for (int k = 0; k <= j; k++) {
                of[k] -= factor * border[row + k];
            }
        }
    }

    private RealMatrix information() {
        double[][] a = new double[p][p];
        for (int j = 0; j < p; j++) {
            for (int k = 0; k <= j; k++) {
                a[j][k] = ofProfile[j][k];
                a[k][j] = a[j][k];
            }
            a[j][j] *= 1 + RIDGE;
        }
        return new Array2DRowRealMatrix(a, false);
    }

    private double[] anglesAfter(double[] change, BandedCholesky factor) {
        double[] angles = new double[wander.state.length];
        for (int q = 0; q < angles.length; q++) {
            int row = q * (p + 1);
            angles[q] = border[row + p];
            for (int j = 0; j < p; j++) {
                angles[q] -= border[row + j] * change[j];
            }
        }
        factor.back(angles);
        return angles;
    }

    private double knownAlready(double[][] inverse) {
        double trace = 0;
        for (int b = 0; b < wander.prior.length; b++) {
            for (int j = 0; j + b < wander.state.length; j++) {
                trace += (b == 0 ? 1 : 2) * inverse[b][j] * wander.prior[b][j];
            }
        }
        return trace;
    }
}
