package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.Random;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;

/** Laws, by the LU decomposition of a reference library; seed 17. */
class CholeskyTest {
    private static final double NEARLY = 1e-10;

    private final Random random = new Random(17);

    @Test
    void solvesAndInverts() {
        RealMatrix matrix = positiveDefinite(7);
        RealMatrix inverse = new LUDecomposition(matrix).getSolver().getInverse();
        Cholesky factor = Cholesky.of(matrix.getData());
        double[] right = random.doubles(7).toArray();
        double[] expected = inverse.operate(right);
        double[] solved = factor.solve(right);
        for (int i = 0; i < 7; i++) {
            assertEquals(expected[i], solved[i], NEARLY);
            for (int j = 0; j < 7; j++) {
                assertEquals(inverse.getEntry(i, j), factor.inverse(i, j), NEARLY);
            }
        }
        assertEquals(Math.log(new LUDecomposition(matrix).getDeterminant()), factor.logDeterminant(), NEARLY);
    }

    @Test
    void tellsWhatIsLeftOfAMatrixThatStandsInTheMidst() {
        RealMatrix matrix = positiveDefinite(7);
        RealMatrix part = positiveDefinite(4);
        RealMatrix inverse = new LUDecomposition(matrix).getSolver().getInverse();
        double expected = inverse.getSubMatrix(2, 5, 2, 5).multiply(part).getTrace();
        assertEquals(expected, Cholesky.of(matrix.getData()).inverseBeside(Cholesky.of(part.getData()), 2), NEARLY);
    }

    @Test
    void squaresAPartOfAVector() {
        RealMatrix matrix = positiveDefinite(4);
        double[] vector = {5, 6, 1, 2, -1, 0.5, 7};
        double[] off = {1 - 0.7, 2 - 0.7, -1 - 0.7, 0.5 - 0.7};
        double expected =
                MatrixUtils.createRealVector(off).dotProduct(matrix.operate(MatrixUtils.createRealVector(off)));
        assertEquals(expected, Cholesky.of(matrix.getData()).square(vector, 2, 0.7), NEARLY);
    }

    @Test
    void isNoneOfAMatrixThatIsNotPositiveDefinite() {
        assertNull(Cholesky.of(new double[][] {{1}, {2, 1}}));
    }

    private RealMatrix positiveDefinite(int size) {
        RealMatrix root = MatrixUtils.createRealMatrix(size, size);
        for (int i = 0; i < size; i++) {
            root.setRow(i, random.doubles(size, -1, 1).toArray());
        }
        return root.multiplyTransposed(root).add(MatrixUtils.createRealIdentityMatrix(size));
    }
}
