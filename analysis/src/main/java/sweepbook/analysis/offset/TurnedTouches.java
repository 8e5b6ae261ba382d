package sweepbook.analysis.offset;

import java.util.List;
import sweepbook.analysis.uncertainty.Budget;

/**
 * One feature touched from the same side at three or more known positions of a rotary axis, in equal steps or not, over
 * a whole turn or a part of it: a tilting axis that cannot turn by half a turn is found this way.
 *
 * <p>A feature that lies e off the axis along the measured axis, and f off it in the direction into which the measured
 * axis is turned by a growing angle, stands at axis + e cos(angle) - f sin(angle).
 */
public final class TurnedTouches {
    /**
     * @param angle_deg what the machine shows of the rotary axis
     */
    public record AtAngle(double angle_deg, Touch touch) {}

    private static final int AXIS = 0;
    private static final int ALONG = 1;
    private static final int ACROSS = 2;

    private final FittedTouches circle;

    public TurnedTouches(List<AtAngle> touches) {
        Touch first = touches.get(0).touch();
        for (AtAngle at : touches) {
            if (!at.touch().feature().equals(first.feature())
                    || !at.touch().approach().equals(first.approach())) {
                throw new IllegalArgumentException(
                        "a rotary axis is found from one feature touched from one side, not from "
                                + first.feature().name() + " and "
                                + at.touch().feature().name());
            }
        }
        circle = new FittedTouches(
                touches.stream().map(AtAngle::touch).toList(),
                touches.stream()
                        .map(at -> Math.toRadians(at.angle_deg()))
                        .map(angle_rad -> new double[] {1, Math.cos(angle_rad), -Math.sin(angle_rad)})
                        .toArray(double[][]::new));
    }

    /** How far the feature lies off the rotary axis at angle 0, along the measured axis, in millimetres. */
    public Budget eccentricity(TouchConditions conditions) {
        return circle.parameter(ALONG, conditions);
    }

    /** The same in the direction into which a growing angle turns the measured axis, in millimetres. */
    public Budget eccentricityAcross(TouchConditions conditions) {
        return circle.parameter(ACROSS, conditions);
    }

    /** The distance from the rotary axis to another feature, touched in the same stand, in millimetres. */
    public Budget fromAxisTo(Touch other, TouchConditions conditions) {
        return circle.fromParameterTo(AXIS, other, conditions);
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        return circle.warnings(conditions);
    }
}
