package sweepbook.simulator.machine;

/** The true form of a feature that a contact can touch. */
public sealed interface Shape {
    /** The same form in the machine's frame, when it is held at this pose. */
    Shape carriedBy(Carrier carrier, Pose pose);

    /**
     * How far a ball must go along a direction until it just touches the form from the outside, on the side to which the
     * direction leads. Negative where it is clear already, 0 where the form is elsewhere.
     *
     * @param ball the ball's centre
     * @param out unit direction
     */
    double way_mm(Vec3 ball, double radius_mm, Vec3 out);

    /** A round pin: from its end, a length along the direction of its axis. */
    record Pin(Vec3 end, Vec3 axis, double length_mm, double radius_mm) implements Shape {
        @Override
        public Shape carriedBy(Carrier carrier, Pose pose) {
            return new Pin(carrier.place(end, pose), carrier.direction(axis, pose), length_mm, radius_mm);
        }

        @Override
        public double way_mm(Vec3 ball, double ball_mm, Vec3 out) {
            Vec3 fromEnd = ball.minus(end);
            double along_mm = fromEnd.dot(axis);
            if (along_mm < 0 || along_mm > length_mm) {
                return 0;
            }
            // Touching, the ball's centre is at the sum of the radii from the axis: a quadratic in the way.
            Vec3 across = fromEnd.across(axis);
            Vec3 step = out.across(axis);
            double reach_mm = radius_mm + ball_mm;
            double a = step.dot(step);
            double b = across.dot(step);
            double c = across.dot(across) - reach_mm * reach_mm;
            double root = b * b - a * c;
            return root < 0 ? 0 : (Math.sqrt(root) - b) / a;
        }
    }

    /** A flat face: a disc about its middle, facing along the normal. */
    record Face(Vec3 middle, Vec3 normal, double radius_mm) implements Shape {
        @Override
        public Shape carriedBy(Carrier carrier, Pose pose) {
            return new Face(carrier.place(middle, pose), carrier.direction(normal, pose), radius_mm);
        }

        @Override
        public double way_mm(Vec3 ball, double ball_mm, Vec3 out) {
            Vec3 fromMiddle = ball.minus(middle);
            boolean beside = fromMiddle.across(normal).norm() > radius_mm;
            return beside ? 0 : (ball_mm - fromMiddle.dot(normal)) / out.dot(normal);
        }
    }
}
