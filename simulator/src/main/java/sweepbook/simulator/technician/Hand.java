package sweepbook.simulator.technician;

/**
 * How a hand moves an axis.
 *
 * @param unevenness greatest relative departure of the speed from even, 0 for even, below 1
 * @param ramp share of a move spent gathering speed, and again slowing down
 * @param stops chance of a stop somewhere in a pass
 * @param stick share of the jog clicks that the slide follows only with the next one
 */
public record Hand(double unevenness, double ramp, double stops, double stick) {
    public static final Hand EVEN = new Hand(0, 0.06, 0, 0);
    public static final Hand UNEVEN = new Hand(0.6, 0.12, 0.25, 0.1);
}
