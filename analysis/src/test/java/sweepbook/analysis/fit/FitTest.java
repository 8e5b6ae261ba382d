package sweepbook.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sweepbook.analysis.published.Published;

/** Published: straight lines, polynomials, and the tangent to a peak. */
class FitTest {
    private static final int LAST_STEPS = 20;

    private static double[][] powers(double[] x, int lowest, int highest) {
        return DoubleStream.of(x)
                .mapToObj(v -> IntStream.rangeClosed(lowest, highest)
                        .mapToDouble(k -> Math.pow(v, k))
                        .toArray())
                .toArray(double[][]::new);
    }

    private static double[] parameters(LinearFit fit, int count) {
        return IntStream.range(0, count).mapToDouble(fit::parameter).toArray();
    }

    private static double[] deviations(LinearFit fit, int count) {
        return IntStream.range(0, count)
                .mapToDouble(j -> fit.estimate(j).stdU())
                .toArray();
    }

    private static double correlation(LinearFit fit) {
        return fit.cofactor(0, 1) / Math.sqrt(fit.cofactor(0, 0) * fit.cofactor(1, 1));
    }

    @Test
    void thermometer_gumH3() {
        try (Published gum = Published.source("gum-h3.txt")) {
            double[] t = gum.data("t_C");
            double t0 = gum.datum("t0_C");
            LinearFit line =
                    new LinearFit(powers(DoubleStream.of(t).map(v -> v - t0).toArray(), 0, 1), gum.data("b_C"));
            for (String more : new String[] {"", "_more"}) {
                gum.check("y1" + more, line.parameter(0));
                gum.check("y2" + more, line.parameter(1));
                gum.check("s_y1" + more, line.estimate(0).stdU());
                gum.check("s_y2" + more, line.estimate(1).stdU());
                gum.check("r" + more, correlation(line));
                gum.check("s" + more, line.scatter());
                gum.check("b_at_30" + more, line.at(1, gum.datum("at_C") - t0).value());
                gum.check("u_b_at_30" + more, line.at(1, gum.datum("at_C") - t0).stdU());
            }
            gum.check("degrees_of_freedom", line.degreesOfFreedom());
            double mean = gum.datum("mean_t_C");
            gum.check(
                    "r_about_mean",
                    correlation(new LinearFit(
                            powers(DoubleStream.of(t).map(v -> v - mean).toArray(), 0, 1), gum.data("b_C"))));
        }
    }

    @Test
    void norris() {
        try (Published nist = Published.source("nist-norris.txt")) {
            LinearFit line = new LinearFit(powers(nist.data("x"), 0, 1), nist.data("y"));
            nist.check("b", parameters(line, 2));
            nist.check("s", deviations(line, 2));
            nist.check("residual_s", line.scatter());
        }
    }

    @Test
    void throughTheOrigin_noInt1() {
        try (Published nist = Published.source("nist-noint1.txt")) {
            LinearFit line = new LinearFit(powers(nist.data("x"), 1, 1), nist.data("y"));
            nist.check("b", line.parameter(0));
            nist.check("s", line.estimate(0).stdU());
            nist.check("residual_s", line.scatter());
        }
    }

    @Test
    void loadCell_pontius() {
        try (Published nist = Published.source("nist-pontius.txt")) {
            double[] y = DoubleStream.concat(
                            DoubleStream.of(nist.data("y_first")), DoubleStream.of(nist.data("y_second")))
                    .toArray();
            double[] x = IntStream.range(0, y.length)
                    .mapToDouble(i -> nist.datum("x_step") * (1 + i % (y.length / 2)))
                    .toArray();
            LinearFit quadratic = new LinearFit(powers(x, 0, 2), y);
            nist.check("b", parameters(quadratic, 3));
            nist.check("s", deviations(quadratic, 3));
            nist.check("residual_s", quadratic.scatter());
        }
    }

    @Test
    void hardPolynomials_wampler() {
        try (Published nist = Published.source("nist-wampler.txt")) {
            int degree = (int) nist.datum("degree");
            double[] x = IntStream.rangeClosed(0, (int) nist.datum("x_to"))
                    .mapToDouble(i -> i)
                    .toArray();
            double[] residual = new double[2];
            for (int which = 0; which < 2; which++) {
                double unit = which == 0 ? 1 : 0.1;
                double[] y = DoubleStream.of(x)
                        .map(v -> IntStream.rangeClosed(0, degree)
                                .mapToDouble(k -> Math.pow(v * unit, k))
                                .sum())
                        .toArray();
                LinearFit polynomial = new LinearFit(powers(x, 0, degree), y);
                nist.check("wampler" + (which + 1) + "_b", parameters(polynomial, degree + 1));
                residual[which] = polynomial.scatter();
            }
            nist.check("residual_s", residual);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"start1", "start2"})
    void aPeak_eckerle4(String start) {
        try (Published nist = Published.source("nist-eckerle4.txt")) {
            double[] x = nist.data("x");
            RealVector y = new ArrayRealVector(nist.data("y"));
            nist.data("start1");
            nist.data("start2");
            RealVector b = near(x, y, nist.data(start));
            for (int i = 0; i < LAST_STEPS; i++) {
                LinearFit tangent = tangent(x, y, b);
                b = b.add(new ArrayRealVector(parameters(tangent, 3)));
            }
            LinearFit tangent = tangent(x, y, b);
            nist.check("b", b.toArray());
            nist.check("s", deviations(tangent, 3));
            nist.check("rss", tangent.scatter() * tangent.scatter() * tangent.degreesOfFreedom());
        }
    }

    /** The tangent to the peak: its fit to what is left is the next step of Gauss and Newton. */
    private static LinearFit tangent(double[] x, RealVector y, RealVector b) {
        Pair<RealVector, RealMatrix> here = peak(x, b);
        return new LinearFit(
                here.getSecond().getData(), y.subtract(here.getFirst()).toArray());
    }

    /** Levenberg and Marquardt as the reference library does it, to half of all digits. */
    private static RealVector near(double[] x, RealVector y, double[] start) {
        return new LevenbergMarquardtOptimizer()
                .optimize(new LeastSquaresBuilder()
                        .model(b -> peak(x, b))
                        .start(start)
                        .target(y)
                        .maxEvaluations(10_000)
                        .maxIterations(10_000)
                        .build())
                .getPoint();
    }

    private static Pair<RealVector, RealMatrix> peak(double[] x, RealVector b) {
        double[] value = new double[x.length];
        double[][] derivative = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            double z = (x[i] - b.getEntry(2)) / b.getEntry(1);
            double shape = Math.exp(-z * z / 2) / b.getEntry(1);
            value[i] = b.getEntry(0) * shape;
            derivative[i] = new double[] {shape, value[i] * (z * z - 1) / b.getEntry(1), value[i] * z / b.getEntry(1)};
        }
        return new Pair<>(new ArrayRealVector(value, false), new Array2DRowRealMatrix(derivative, false));
    }

    /** Law: with as many values as parameters the fit is exact; weights rebuild the parameters. */
    @Test
    void anExactFit_andItsWeights() {
        double[] value = {3, 5, 11};
        LinearFit fit = new LinearFit(powers(new double[] {0, 1, 2}, 0, 2), value);
        assertEquals(0, fit.degreesOfFreedom());
        assertEquals(2, fit.parameter(2), 1e-12);
        double sum = 0;
        double[] weights = fit.weights(2);
        for (int i = 0; i < 3; i++) {
            assertEquals(0, fit.residuals()[i], 1e-12);
            sum += weights[i] * value[i];
        }
        assertEquals(2, sum, 1e-12);
    }

    @Test
    void whatTheValuesDoNotDetermineIsRefused() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new LinearFit(powers(new double[] {4, 4, 4}, 0, 1), new double[] {1, 2, 3}));
        assertThrows(
                IllegalArgumentException.class, () -> new LinearFit(powers(new double[] {4}, 0, 1), new double[] {1}));
    }
}
