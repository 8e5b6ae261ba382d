package sweepbook.simulator.job;

import java.util.List;
import sweepbook.simulator.indicator.Contact;
import sweepbook.simulator.machine.Axis;

/**
 * An offset that the job looks for, and the truth about it.
 *
 * @param name by geometry
 * @param axis the measured axis
 * @param direction +1 or -1: in which direction of the axis the machine moves to press the contact
 * @param swept the axis of the sweep; a flat face is not swept
 * @param contact where the indicator's tip is while this offset is measured
 * @param touches in the order in which they are made
 * @param entryBefore_mm what stands in the controller's table before the job
 * @param truth_mm what the touches should give: second feature less first, half the first touch less the one after half a turn, or
 *     from the axis of such a turn to the feature touched in between
 */
public record SoughtOffset(
        String name,
        Axis axis,
        int direction,
        Axis swept,
        Contact contact,
        List<Target> touches,
        double entryBefore_mm,
        double truth_mm) {
    public SoughtOffset {
        touches = List.copyOf(touches);
    }

    /** A feature to touch, with the head swivelled and tilted. */
    public record Target(String feature, double swivel_deg, double tilt_deg) {
        Target(String feature, double swivel_deg) {
            this(feature, swivel_deg, 0);
        }
    }
}
