package sweepbook.analysis.offset;

import java.util.List;
import sweepbook.analysis.fit.LinearFit;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * Squareness of a spindle to a table: the indicator is swung by the spindle, its contact on the table, and read at
 * three or more angles of a circle. The contact is pressed deepest on the side to which the upper end of the spindle
 * leans.
 */
public final class Tram {
    /**
     * @param angle_deg where on the circle, from one direction of the table (its plus X, say) to the next (plus Y)
     * @param time_s when, for the drift
     */
    public record AtAngle(double angle_deg, Estimate reading, double time_s) {}

    private final double circleRadius_mm;
    private final FittedTouches circle;

    /**
     * @param circleRadius_mm from the spindle's axis to the contact
     */
    public Tram(List<AtAngle> readings, double circleRadius_mm, Pressing pressing) {
        if (!(circleRadius_mm > 0)) {
            throw new IllegalArgumentException("the circle's radius must be above 0 mm, not " + circleRadius_mm);
        }
        this.circleRadius_mm = circleRadius_mm;
        Feature table = new Feature.Flat("table");
        Approach approach = new Approach(Direction.PLUS, pressing, Stand.ON_TABLE); // sign of the reading: p alone
        this.circle = new FittedTouches(
                readings.stream()
                        .map(at -> new Touch(table, approach, 0, at.reading(), at.time_s()))
                        .toList(),
                readings.stream()
                        .map(at -> Math.toRadians(at.angle_deg()))
                        .map(angle_rad -> new double[] {1, Math.cos(angle_rad), Math.sin(angle_rad)})
                        .toArray(double[][]::new));
    }

    /** How far the upper end leans towards a direction on the circle, in degrees, negative if away from it. */
    public Budget leanTowards_deg(double direction_deg, TouchConditions conditions) {
        return lean_deg(direction_deg, standingStill(conditions));
    }

    /** The whole tilt, in degrees, never negative: near squareness it comes out larger than it is, by chance alone. */
    public Budget tilt_deg(TouchConditions conditions) {
        TouchConditions still = standingStill(conditions);
        return lean_deg(direction_deg(still), still);
    }

    /** The direction to which the upper end leans, in degrees, where it leans by more than chance explains. */
    public Finding<Estimate> direction(TouchConditions conditions) {
        TouchConditions still = standingStill(conditions);
        Estimate tilt = tilt_deg(conditions).combined();
        if (tilt.value() <= tilt.u95()) {
            return Finding.notDetermined("the tilt is no larger than its uncertainty: it has no direction");
        }
        Estimate across = lean_deg(direction_deg(still) + 90, still).combined();
        double stdU_deg = Math.toDegrees(across.stdU() / tilt.value());
        return Finding.found(new Estimate(direction_deg(still), stdU_deg, across.degreesOfFreedom()));
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        return circle.warnings(standingStill(conditions));
    }

    private double direction_deg(TouchConditions conditions) {
        LinearFit fit = circle.fit(conditions);
        double direction_deg = Math.toDegrees(Math.atan2(fit.parameter(2), fit.parameter(1)));
        return direction_deg < 0 ? direction_deg + 360 : direction_deg;
    }

    private Budget lean_deg(double towards_deg, TouchConditions conditions) {
        LinearFit fit = circle.fit(conditions);
        double[] cosine = fit.weights(1);
        double[] sine = fit.weights(2);
        double[] weight = new double[cosine.length];
        for (int i = 0; i < weight.length; i++) {
            weight[i] = (cosine[i] * Math.cos(Math.toRadians(towards_deg))
                            + sine[i] * Math.sin(Math.toRadians(towards_deg)))
                    / circleRadius_mm;
        }
        Budget slope = circle.sum(weight, conditions);
        double perSlope_deg = Math.toDegrees(1 / (1 + slope.value() * slope.value()));
        return slope.times(perSlope_deg).shiftedTo(Angles.deg(slope.value()));
    }

    /** No linear axis moves between the readings: neither readout nor backlash comes in. */
    private static TouchConditions standingStill(TouchConditions conditions) {
        return new TouchConditions(
                conditions.indicator(),
                new MachineLimits(0, 0),
                conditions.withoutTemperature().surroundings());
    }
}
