package sweepbook.simulator.machine;

/**
 * Something to touch.
 *
 * @param name what the technician calls it
 * @param carrier what holds it
 * @param shape its form, counted in the carrier's frame
 */
public record Feature(String name, Carrier carrier, Shape shape) {
    public Shape at(Pose pose) {
        return shape.carriedBy(carrier, pose);
    }
}
