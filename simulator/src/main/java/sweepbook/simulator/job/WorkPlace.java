package sweepbook.simulator.job;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.indicator.IndicatorSettings;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.technician.Hand;

/**
 * The machine, the indicator and the person of a job.
 *
 * @param unit in which the controller shows positions
 * @param shownDecimals of the position display
 * @param click_mm one jog click
 */
record WorkPlace(
        LengthUnit unit,
        int shownDecimals,
        double click_mm,
        double backlash_mm,
        List<Feature> features,
        IndicatorSettings indicator,
        List<Disturbance> disturbances,
        Hand hand) {
    WorkPlace {
        features = List.copyOf(features);
        disturbances = List.copyOf(disturbances);
    }

    double shownStep_mm() {
        return unit.toMm(Math.pow(10, -shownDecimals));
    }

    Feature feature(String name) {
        return features.stream()
                .filter(feature -> feature.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no feature '" + name + "' on this machine"));
    }
}
