package sweepbook.simulator.trial;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * The least standard deviation of the eccentricity that readings at known angles allow (Cramer-Rao), beside an unknown mean and
 * an unknown direction: columns 1, cos, sin of the angle from the high spot. Many readings spread over whole turns give
 * sqrt(2 variance / n).
 */
final class EccentricityBound {
    private final double highSpot_deg;
    private final double variance_mm2;
    private final RealMatrix information = new Array2DRowRealMatrix(3, 3);

    EccentricityBound(double highSpot_deg, double variance_mm2) {
        this.highSpot_deg = highSpot_deg;
        this.variance_mm2 = variance_mm2;
    }

    void reading(double angle_deg) {
        double from_rad = Math.toRadians(angle_deg - highSpot_deg);
        double[] column = {1, Math.cos(from_rad), Math.sin(from_rad)};
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                information.addToEntry(i, j, column[i] * column[j]);
            }
        }
    }

    double stdU_mm() {
        return Math.sqrt(variance_mm2
                * new LUDecomposition(information).getSolver().getInverse().getEntry(1, 1));
    }
}
