package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CellSumsTest {
    /** Law: the sums by cells give what the products of all derivatives of every reading add up to, whether the hand paused or not. */
    @ParameterizedTest
    @CsvSource({"1, false", "2, false", "5, false", "6, false", "1, true", "6, true"})
    void addUpToTheProductsOfTheDerivatives(int knots, boolean paused) {
        int size = PassLikelihood.SPEED + knots + (paused ? 2 : 0);
        int after = paused ? size - 1 : PassLikelihood.P0;
        Random random = new Random(13);
        double[] time = random.doubles(60, -1, 1).sorted().toArray();
        HandMotion motion = new HandMotion(time, knots);
        motion.set(random.doubles(size, -1, 1).toArray(), PassLikelihood.P0, after);
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
                int place = cell < motion.middle() ? PassLikelihood.P0 : after;
                d[place] = random.nextGaussian();
                for (int k = 0; k < knots; k++) {
                    d[PassLikelihood.SPEED + k] = d[place] * HandMotionTest.byKnot(motion, cell, i, k);
                }
                readings.score[i] = score;
                readings.information[i] = information;
                readings.byBend[i] = d[1];
                readings.byDistance[i] = d[place];
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
