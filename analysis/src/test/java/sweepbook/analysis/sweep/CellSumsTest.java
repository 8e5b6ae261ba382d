package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CellSumsTest {
    /** Law: the sums by cells give what the products of all derivatives of every reading add up to. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 5, 6})
    void addUpToTheProductsOfTheDerivatives(int knots) {
        int size = PassLikelihood.SPEED + knots;
        Random random = new Random(13);
        double[] time = random.doubles(60, -1, 1).sorted().toArray();
        HandMotion motion = new HandMotion(time, knots);
        motion.set(random.doubles(1 + knots, -1, 1).toArray(), 0);
        double[] gradient = new double[size];
        double[][] hessian = new double[size][size];
        double[] expectedGradient = new double[size];
        double[][] expectedHessian = new double[size][size];
        CellSums.Readings readings = new CellSums.Readings(time.length);
        for (int cell = 0; cell < motion.cells(); cell++) {
            for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
                double score = random.nextGaussian();
                double information = random.nextDouble();
                double[] d = new double[size];
                d[0] = 1;
                d[1] = random.nextGaussian();
                d[PassLikelihood.P0] = random.nextGaussian();
                for (int k = 0; k < knots; k++) {
                    d[PassLikelihood.SPEED + k] = d[PassLikelihood.P0] * HandMotionTest.byKnot(motion, cell, i, k);
                }
                readings.score[i] = score;
                readings.information[i] = information;
                readings.byBend[i] = d[1];
                readings.byDistance[i] = d[PassLikelihood.P0];
                for (int a = 0; a < size; a++) {
                    expectedGradient[a] += score * d[a];
                    for (int b = 0; b <= a; b++) {
                        expectedHessian[a][b] += information * d[a] * d[b];
                    }
                }
            }
        }
        new CellSums(motion, gradient, hessian).add(readings);
        for (int a = 0; a < size; a++) {
            assertEquals(expectedGradient[a], gradient[a], 1e-12, "gradient " + a + ", " + knots + " knots, seed 13");
            for (int b = 0; b <= a; b++) {
                assertEquals(
                        expectedHessian[a][b],
                        hessian[a][b],
                        1e-12,
                        "Hessian " + a + " " + b + ", " + knots + " knots, seed 13");
            }
        }
    }
}
