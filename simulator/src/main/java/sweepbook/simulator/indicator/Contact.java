package sweepbook.simulator.indicator;

import sweepbook.simulator.machine.Carrier;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Vec3;

/**
 * The tip of the indicator: a ball that a feature pushes back along the plunger.
 *
 * @param carrier what the stand is clamped to
 * @param ball centre of the ball when the plunger hangs free, in the carrier's frame
 * @param pressing unit direction in which the plunger is pushed in
 * @param radius_mm radius of the ball
 * @param travel_mm greatest travel of the plunger
 */
public record Contact(Carrier carrier, Vec3 ball, Vec3 pressing, double radius_mm, double travel_mm) {

    /** How far the feature pushes the plunger in at this pose; 0 where it does not touch. */
    public double press_mm(Feature feature, Pose pose) {
        Vec3 free = carrier.place(ball, pose);
        double way_mm = feature.at(pose).way_mm(free, radius_mm, carrier.direction(pressing, pose));
        // Beyond its travel the plunger cannot be between: the feature is clear, on the far side of the ball.
        return way_mm > 0 && way_mm <= travel_mm ? way_mm : 0;
    }
}
