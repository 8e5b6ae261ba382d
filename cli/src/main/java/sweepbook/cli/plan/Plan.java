package sweepbook.cli.plan;

import java.util.List;
import java.util.Optional;
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.TouchConditions;

/**
 * What is to be measured on which machine with which indicator, as the shop wrote it down.
 *
 * @param plan its name
 * @param conditions what the result's uncertainty takes from machine, indicator and surroundings
 * @param features what is touched
 * @param offsets what is sought, in the order in which it is measured
 * @param head what lies between the linear axes, the tool and the part; where it is told, one can see what a change does
 */
public record Plan(
        String plan,
        Machine machine,
        Indicator indicator,
        TouchConditions conditions,
        List<Feature> features,
        List<PlannedOffset> offsets,
        Optional<PlannedHead> head) {
    public Plan {
        features = List.copyOf(features);
        offsets = List.copyOf(offsets);
    }

    /**
     * @param resolution step of the controller's position display
     * @param jogStep smallest jog
     */
    public record Machine(String name, String serial, Length resolution, Length jogStep, List<Travel> travels) {
        public Machine {
            travels = List.copyOf(travels);
        }

        public Optional<Travel> travel(Axis axis) {
            return travels.stream().filter(travel -> travel.axis() == axis).findFirst();
        }
    }

    /** How far an axis goes, on the controller's display. */
    public record Travel(Axis axis, Length from, Length to) {}

    /**
     * @param description free of makers: what it is and what it can do
     * @param profile what travels on its wire: a bundled profile's name, or a file
     * @param calibrated the date of its last calibration, as written on its label
     * @param calibration its deviation against its reading, to take off each reading
     */
    public record Indicator(
            String description,
            String serial,
            Length resolution,
            Optional<String> profile,
            Optional<String> calibrated,
            Optional<CalibrationTable> calibration) {}
}
