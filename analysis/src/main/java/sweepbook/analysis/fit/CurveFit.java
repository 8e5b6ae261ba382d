package sweepbook.analysis.fit;

import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Least squares of a model that is not linear in its parameters, by Levenberg and Marquardt from a start. These stop
 * where the sum of squares no longer falls, which is half of all digits early; so the fit ends with steps of Gauss and
 * Newton as long as these grow shorter.
 */
public final class CurveFit {
    private static final int MOST_EVALUATIONS = 10_000;
    private static final double TOLERANCE = 1e-15;

    private final MultivariateJacobianFunction model;
    private final RealVector value;
    private RealVector parameter;
    private LinearFit tangent;

    /**
     * @param model values and their derivatives by the parameters
     * @throws RuntimeException if it does not settle, or the parameters cannot be told apart
     */
    public CurveFit(MultivariateJacobianFunction model, double[] start, double[] value) {
        this.model = model;
        this.value = new ArrayRealVector(value);
        parameter = new LevenbergMarquardtOptimizer(100, TOLERANCE, TOLERANCE, TOLERANCE, Double.MIN_NORMAL)
                .optimize(new LeastSquaresBuilder()
                        .model(model)
                        .start(start)
                        .target(value)
                        .maxEvaluations(MOST_EVALUATIONS)
                        .maxIterations(MOST_EVALUATIONS)
                        .build())
                .getPoint();
        double lastStep = Double.POSITIVE_INFINITY;
        double step = tangentStep();
        while (step < lastStep) {
            parameter = parameter.add(tangentParameters());
            lastStep = step;
            step = tangentStep();
        }
    }

    /** Lays the tangent at the parameters; how far it would move them, against their size. */
    private double tangentStep() {
        Pair<RealVector, RealMatrix> here = model.value(parameter);
        tangent = new LinearFit(
                here.getSecond().getData(), value.subtract(here.getFirst()).toArray());
        return tangentParameters().getNorm() / parameter.getNorm();
    }

    private RealVector tangentParameters() {
        RealVector step = new ArrayRealVector(parameter.getDimension());
        for (int j = 0; j < step.getDimension(); j++) {
            step.setEntry(j, tangent.parameter(j));
        }
        return step;
    }

    public double parameter(int j) {
        return parameter.getEntry(j);
    }

    /** A parameter with its uncertainty from the scatter of the values about the model; only with values to spare. */
    public Estimate estimate(int j) {
        Estimate step = tangent.estimate(j);
        return new Estimate(parameter(j), step.stdU(), step.degreesOfFreedom());
    }

    /** Sum of the squared differences between values and model. */
    public double sumOfSquares() {
        double norm = value.subtract(model.value(parameter).getFirst()).getNorm();
        return norm * norm;
    }
}
