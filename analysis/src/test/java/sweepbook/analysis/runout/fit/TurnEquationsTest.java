package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sweepbook.analysis.runout.angle.Turning;

class TurnEquationsTest {
    private static final int P = 5;

    /** Law: where all angles are stated a step from nothing is the weighted least squares, here by a library's QR. */
    @ParameterizedTest
    @ValueSource(ints = {6, 7, 8, 9, 255, 256, 257, 1000})
    void aStepIsTheLeastSquares(int readings) {
        Random random = new Random(readings);
        RealMatrix design = new Array2DRowRealMatrix(readings, P);
        double[] reading = new double[readings];
        TurnEquations equations = new TurnEquations(P, null);
        DesignRows rows = new DesignRows(P);
        for (int from = 0; from < readings; from += rows.most()) {
            int count = Math.min(rows.most(), readings - from);
            for (int r = 0; r < count; r++) {
                double root = 0.5 + random.nextDouble();
                reading[from + r] = root * random.nextGaussian();
                rows.information()[r] = root * root;
                rows.score()[r] = root * reading[from + r];
                for (int j = 0; j < P; j++) {
                    rows.x()[r * P + j] = random.nextGaussian();
                    design.setEntry(from + r, j, root * rows.x()[r * P + j]);
                }
            }
            equations.add(rows, count);
        }
        TurnEquations.Step step = equations.solve();
        double[] expected = new QRDecomposition(design)
                .getSolver()
                .solve(new ArrayRealVector(reading))
                .toArray();
        assertArrayEquals(expected, step.change(), 1e-7);
        RealMatrix identity = step.covariance().multiply(design.transpose().multiply(design));
        for (int j = 0; j < P; j++) {
            for (int k = 0; k < P; k++) {
                assertEquals(j == k ? 1 : 0, identity.getEntry(j, k), 1e-7);
            }
        }
    }

    /** Law: residuals are readings less rows times coefficients. */
    @ParameterizedTest
    @ValueSource(ints = {1, 3, 256})
    void residualsAreWhatTheRowsLeave(int count) {
        DesignRows rows = new DesignRows(2);
        double[] reading = new double[count + 2];
        for (int r = 0; r < count; r++) {
            rows.x()[2 * r] = 1;
            rows.x()[2 * r + 1] = r;
            reading[2 + r] = 3 - 2.0 * r + (r % 2 == 0 ? 0.25 : -0.25);
        }
        double[] residual = new double[reading.length];
        rows.residuals(reading, new double[] {3, -2}, 2, count, residual);
        for (int r = 0; r < count; r++) {
            assertEquals(r % 2 == 0 ? 0.25 : -0.25, residual[2 + r], 1e-12);
        }
    }

    /** Law: where the angles may explain all that is read, little is known of the profile; rounding makes it no less than that. */
    @ParameterizedTest
    @ValueSource(ints = {20, 50, 80, 110, 140, 170, 200, 230})
    void whatTheAnglesExplainIsNotKnown(int readings) {
        int p = 17;
        Turning turning = new Turning(new double[] {0, 1}, new double[] {0, 0.5}, new double[] {0.5, 0.5});
        Turning knots = turning.withKnotsEvery(0.005, 0, 1);
        AngleWander wander =
                new AngleWander(knots, new Anchors(new double[] {0}, new double[] {0}, new double[] {1e9}), 1e9);
        DesignRows rows = new DesignRows(p);
        int[] interval = new int[readings];
        double[][] basis = new double[readings][];
        for (int i = 0; i < readings; i++) {
            double time_s = (i + 0.5) / readings;
            interval[i] = wander.interval(time_s, 0);
            basis[i] = wander.basis(time_s, interval[i]);
            for (int j = 0; j < p; j++) {
                double phase = (j + 1) / 2 * turning.angle_rad(time_s);
                rows.x()[i * p + j] = j % 2 == 0 ? Math.cos(phase) : Math.sin(phase);
            }
            rows.slope()[i] = 1;
            rows.information()[i] = 1e6;
            rows.score()[i] = 0;
        }
        TurnEquations equations = new TurnEquations(p, wander);
        equations.add(rows, readings);
        equations.addAngles(rows, readings, interval, basis, 0);
        assertTrue(equations.solve().covariance().getEntry(0, 0) > 1 / 1e6);
    }
}
