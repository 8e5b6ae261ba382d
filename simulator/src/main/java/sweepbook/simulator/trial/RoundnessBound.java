package sweepbook.simulator.trial;

import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * The least standard deviation of the out-of-roundness that readings and marks allow (Cramer-Rao, of the highest and the
 * lowest point), beside an unknown mean, drift, eccentricity, undulations and motion. Of the motion it is known how much
 * and how quickly such a turning wanders, not how this one did (the hybrid bound of Rockah and Schultheiss, IEEE Trans.
 * ASSP 35 (1987) 286; cited from memory).
 */
final class RoundnessBound {
    private static final double SLOPE_DEG = 0.01;

    private final TurnedPart part;
    private final double variance_mm2;
    private final int[] upr;
    private final int ofProfile;
    private final double[][] information;

    /** @param unknowns of the motion, each a standard normal variate beforehand */
    RoundnessBound(TurnedPart part, double variance_mm2, int unknowns) {
        this.part = part;
        this.variance_mm2 = variance_mm2;
        upr = IntStream.concat(IntStream.of(1), part.form().stream().mapToInt(Harmonic::upr))
                .toArray();
        ofProfile = 2 + 2 * upr.length;
        information = new double[ofProfile + unknowns][ofProfile + unknowns];
        for (int j = ofProfile; j < information.length; j++) {
            information[j][j] = 1;
        }
    }

    /**
     * A reading.
     *
     * @param perUnknown_deg how far each unknown of the motion turns the part then
     */
    void reading(double time_s, double angle_deg, double[] perUnknown_deg) {
        double[] column = new double[information.length];
        column[0] = 1;
        column[1] = time_s;
        fillUndulations(angle_deg, column);
        double slope_mm_per_deg =
                (part.standsOut_mm(angle_deg + SLOPE_DEG) - part.standsOut_mm(angle_deg - SLOPE_DEG)) / (2 * SLOPE_DEG);
        for (int j = ofProfile; j < column.length; j++) {
            column[j] = slope_mm_per_deg * perUnknown_deg[j - ofProfile];
        }
        add(column, variance_mm2);
    }

    /** A mark, of which it is known how far the part was from its place. */
    void mark(double variance_deg2, double[] perUnknown_deg) {
        double[] column = new double[information.length];
        System.arraycopy(perUnknown_deg, 0, column, ofProfile, perUnknown_deg.length);
        add(column, variance_deg2);
    }

    private void fillUndulations(double angle_deg, double[] column) {
        for (int j = 0; j < upr.length; j++) {
            double phase_rad = Math.toRadians(upr[j] * angle_deg);
            column[2 + 2 * j] = Math.cos(phase_rad);
            column[3 + 2 * j] = Math.sin(phase_rad);
        }
    }

    private void add(double[] column, double variance) {
        for (int j = 0; j < column.length; j++) {
            for (int k = 0; k < column.length; k++) {
                information[j][k] += column[j] * column[k] / variance;
            }
        }
    }

    /** Infinite where undulations pass for each other. */
    double stdU_mm() {
        double[] highest = new double[information.length];
        double[] lowest = new double[information.length];
        fillUndulations(extreme_deg(1), highest);
        fillUndulations(extreme_deg(-1), lowest);
        double[] apart = IntStream.range(0, highest.length)
                .mapToDouble(j -> j < 4 ? 0 : highest[j] - lowest[j])
                .toArray();
        RealMatrix all = new Array2DRowRealMatrix(information, false);
        DecompositionSolver solver = new LUDecomposition(all, 1e-9 / variance_mm2).getSolver();
        if (!solver.isNonSingular()) {
            return Double.POSITIVE_INFINITY;
        }
        double[] carried = solver.getInverse().operate(apart);
        return Math.sqrt(IntStream.range(0, apart.length)
                .mapToDouble(j -> apart[j] * carried[j])
                .sum());
    }

    private double extreme_deg(int sign) {
        return DoubleStream.iterate(0, angle_deg -> angle_deg < 360, angle_deg -> angle_deg + 0.1)
                .boxed()
                .max((a, b) -> Double.compare(sign * part.form_mm(a), sign * part.form_mm(b)))
                .orElseThrow();
    }
}
