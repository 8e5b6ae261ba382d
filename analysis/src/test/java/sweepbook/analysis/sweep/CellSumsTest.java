package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

class CellSumsTest {
    private static final int KNOTS = 6;
    private static final int SIZE = PassLikelihood.SPEED + KNOTS;

    /** Law: the sums by cells give what the products of all derivatives of every reading add up to. */
    @Test
    void addUpToTheProductsOfTheDerivatives() {
        Random random = new Random(13);
        double[] time = random.doubles(60, -1, 1).sorted().toArray();
        HandMotion motion = new HandMotion(time, KNOTS);
        motion.set(random.doubles(1 + KNOTS, -1, 1).toArray(), 0);
        double[] gradient = new double[SIZE];
        double[][] hessian = new double[SIZE][SIZE];
        double[] expectedGradient = new double[SIZE];
        double[][] expectedHessian = new double[SIZE][SIZE];
        CellSums sums = new CellSums();
        for (int cell = 0; cell < motion.cells(); cell++) {
            for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
                double score = random.nextGaussian();
                double information = random.nextDouble();
                double[] d = new double[SIZE];
                d[0] = 1;
                d[1] = random.nextGaussian();
                d[PassLikelihood.P0] = random.nextGaussian();
                for (int k = 0; k < KNOTS; k++) {
                    double before = motion.byKnot(cell, k);
                    double after = motion.byKnot(cell + 1, k);
                    d[PassLikelihood.SPEED + k] = d[PassLikelihood.P0] * (before + motion.within(i) * (after - before));
                }
                sums.add(score, information, d[1], d[PassLikelihood.P0], motion.within(i));
                for (int a = 0; a < SIZE; a++) {
                    expectedGradient[a] += score * d[a];
                    for (int b = 0; b <= a; b++) {
                        expectedHessian[a][b] += information * d[a] * d[b];
                    }
                }
            }
            sums.flush(motion, cell, gradient, hessian);
        }
        for (int a = 0; a < SIZE; a++) {
            assertEquals(expectedGradient[a], gradient[a], 1e-12, "gradient " + a + ", seed 13");
            for (int b = 0; b <= a; b++) {
                assertEquals(expectedHessian[a][b], hessian[a][b], 1e-12, "Hessian " + a + " " + b + ", seed 13");
            }
        }
    }
}
