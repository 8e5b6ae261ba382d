package sweepbook.cli.plan;

import java.util.List;
import java.util.OptionalDouble;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/**
 * A planned touch as it was made.
 *
 * @param number counts the planned touches from 0
 * @param travel_mm what the machine showed of the axis of the travel, where the method has one
 */
public record MadeTouch(int number, PlannedTouch planned, Touch touch, OptionalDouble travel_mm) {
    static List<Touch> touches(List<MadeTouch> made) {
        return made.stream().map(MadeTouch::touch).toList();
    }
}
