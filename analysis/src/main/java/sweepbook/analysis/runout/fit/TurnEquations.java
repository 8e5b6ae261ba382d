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
    /** Keeps the factors real where two undulations, or one and the angles, cannot be told apart; far below any figure that matters. */
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

    /** So many readings, by their rows of the design. */
    void add(DesignRows rows, int count) {
        double[] x = rows.x();
        double[] information = rows.information();
        rows.silence(count);
        for (int r = 0; r < count; r += DesignRows.TOGETHER) {
            int a = r * p;
            int b = a + p;
            int c = b + p;
            int d = c + p;
            for (int j = 0; j < p; j++) {
                double ofA = information[r] * x[a + j];
                double ofB = information[r + 1] * x[b + j];
                double ofC = information[r + 2] * x[c + j];
                double ofD = information[r + 3] * x[d + j];
                addTo(ofProfile[j], j + 1, x, a, ofA, ofB, ofC, ofD);
            }
            double[] score = rows.score();
            addTo(ofProfile[p], p, x, a, score[r], score[r + 1], score[r + 2], score[r + 3]);
        }
    }

    /** Four rows at once, the first of them at a: each sum is then fetched and put back once for all. */
    private void addTo(double[] sums, int count, double[] x, int a, double ofA, double ofB, double ofC, double ofD) {
        int b = a + p;
        int c = b + p;
        int d = c + p;
        for (int k = 0; k < count; k++) {
            sums[k] = sums[k] + ofA * x[a + k] + ofB * x[b + k] + ofC * x[c + k] + ofD * x[d + k];
        }
    }

    /**
     * What the same readings, the first of them numbered from, say of their angles: by the profile's slope there, through
     * the spline's basis.
     */
    void addAngles(DesignRows rows, int count, int[] interval, double[][] basis, int from) {
        for (int r = 0; r < count; r++) {
            if (rows.slope()[r] != 0) {
                addAngle(rows, r, 2 * interval[from + r], basis[from + r]);
            }
        }
    }

    private void addAngle(DesignRows rows, int r, int at, double[] basis) {
        double slope = rows.slope()[r];
        double information = rows.information()[r];
        AngleWander.addOuter(band, at, basis, information * slope * slope);
        double[] x = rows.x();
        int row = r * p;
        int a = at * (p + 1);
        int b = a + p + 1;
        int c = b + p + 1;
        int d = c + p + 1;
        double ofA = information * slope * basis[0];
        double ofB = information * slope * basis[1];
        double ofC = information * slope * basis[2];
        double ofD = information * slope * basis[3];
        for (int k = 0; k < p; k++) {
            border[a + k] += ofA * x[row + k];
            border[b + k] += ofB * x[row + k];
            border[c + k] += ofC * x[row + k];
            border[d + k] += ofD * x[row + k];
        }
        double score = rows.score()[r] * slope;
        border[a + p] += score * basis[0];
        border[b + p] += score * basis[1];
        border[c + p] += score * basis[2];
        border[d + p] += score * basis[3];
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
        // Before the angles are eliminated, for where they take nearly all, rounding leaves less than nothing.
        for (int j = 0; j < p; j++) {
            ofProfile[j][j] *= 1 + RIDGE;
        }
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
