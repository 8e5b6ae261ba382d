package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sweepbook.analysis.fit.LinearFit;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The indicator held against the machine's own scale: it is jogged by known steps, in and out, and read at each. The
 * slope shows a tilted plunger, the difference of the two directions the hysteresis, the scatter the repeatability.
 */
public final class ScaleCheck {
    /** Which way the contact was moving when the step ended. */
    public enum Motion {
        IN(+1),
        OUT(-1);

        private final int sign;

        Motion(int sign) {
            this.sign = sign;
        }
    }

    /**
     * @param position_mm what the machine shows
     * @param reading_mm what the indicator shows there
     */
    public record Step(double position_mm, double reading_mm, Motion motion) {}

    private static final int SLOPE = 1;
    private static final int HYSTERESIS = 2;

    private final double[][] rows;
    private final LinearFit line;
    private final boolean bothWays;

    /** At least three steps one way, or four both ways. */
    public ScaleCheck(List<Step> steps, Approach approach) {
        int sign = approach.direction().sign() * approach.pressing().sign();
        this.bothWays = steps.stream().map(Step::motion).distinct().count() > 1;
        int parameters = bothWays ? 3 : 2;
        if (steps.size() <= parameters) {
            throw new IllegalArgumentException(
                    "a scale check needs " + (parameters + 1) + " steps, not " + steps.size());
        }
        this.rows = steps.stream()
                .map(step -> row(step, sign, steps.get(0).position_mm()))
                .toArray(double[][]::new);
        this.line =
                new LinearFit(rows, steps.stream().mapToDouble(Step::reading_mm).toArray());
    }

    private double[] row(Step step, int sign, double start_mm) {
        double expected_mm = sign * (step.position_mm() - start_mm);
        // Going in, friction holds the reading back; coming out, forward: sign of p drops out in the size.
        return bothWays ? new double[] {1, expected_mm, step.motion().sign / 2.0} : new double[] {1, expected_mm};
    }

    /** Change of the reading for a millimetre of the machine's scale; 1 where both agree. */
    public Estimate slope() {
        return line.estimate(SLOPE);
    }

    /** True movement for a reading of one, for {@link IndicatorLimits#readingScale()}. */
    public Estimate readingScale() {
        Estimate slope = slope();
        return new Estimate(
                1 / slope.value(), slope.stdU() / (slope.value() * slope.value()), slope.degreesOfFreedom());
    }

    /**
     * By how much the readings differ from the machine's scale over a span, in millimetres, with the sources of
     * uncertainty of the touches. The scale and the tilt that are stated do not come in: they are what is looked for.
     *
     * @param touches the steps, in their order
     */
    public Budget off(double span_mm, List<Touch> touches, TouchConditions conditions) {
        IndicatorLimits stated = conditions.indicator();
        IndicatorLimits plain = new IndicatorLimits(
                stated.permissibleError_mm(),
                stated.independentAfter_mm(),
                stated.hysteresis_mm(),
                0,
                Estimate.exact(1),
                stated.contactRadius());
        FittedTouches fitted = new FittedTouches(touches, rows);
        return fitted.parameter(
                        SLOPE,
                        new TouchConditions(plain, conditions.machine(), conditions.surroundings())
                                .withoutTemperature())
                .times(span_mm * touches.get(0).signOfReading());
    }

    /** Tilt of a plunger against the measured axis that would explain the slope, in degrees; 0 if it is below 1. */
    public double tilt_deg() {
        return slope().value() <= 1 ? 0 : Math.toDegrees(Math.acos(1 / slope().value()));
    }

    /** Reading going in less reading coming out at one position, in millimetres; nothing if only one way was gone. */
    public Estimate hysteresis() {
        return bothWays ? line.estimate(HYSTERESIS) : Estimate.exact(0);
    }

    /** Standard deviation of a reading about the line, in millimetres. */
    public double repeatability_mm() {
        return line.scatter();
    }

    /** What the person should look at, in plain words. */
    public List<String> warnings() {
        List<String> warnings = new ArrayList<>();
        Estimate slope = slope();
        double off = slope.value() - 1;
        if (slope.value() <= 0) {
            warnings.add("the reading moves against the machine: the direction or the pressing is stated wrongly");
        } else if (off > slope.u95()) {
            warnings.add(String.format(
                    Locale.ROOT,
                    "the reading moves %.2f %% more than the machine: a plunger tilted by %.1f degrees would do that; straighten it",
                    100 * off,
                    tilt_deg()));
        } else if (-off > slope.u95()) {
            warnings.add(String.format(
                    Locale.ROOT,
                    "the reading moves %.2f %% less than the machine: look whether the contact slips or the feature gives way",
                    -100 * off));
        }
        if (!bothWays) {
            warnings.add("steps went one way only: the hysteresis is not known");
        }
        return List.copyOf(warnings);
    }
}
