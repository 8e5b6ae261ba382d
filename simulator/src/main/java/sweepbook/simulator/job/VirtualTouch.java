package sweepbook.simulator.job;

import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.machine.Axis;

/**
 * A touch that the virtual technician has made.
 *
 * @param touch counts the touches of the offset from 0
 * @param trace all readings since the touch before
 * @param axis the measured axis
 * @param onCrest position of the measured axis on the controller's display while the sweep was made, in the machine's unit
 * @param atTheEnd the same at the stable zero
 * @param highSpot_mm true reading on the crest while the sweep was made
 * @param zero_mm true reading at the end
 */
public record VirtualTouch(
        String offset,
        int touch,
        Trace trace,
        Axis axis,
        String onCrest,
        String atTheEnd,
        double highSpot_mm,
        double zero_mm) {}
