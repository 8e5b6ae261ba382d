package sweepbook.simulator.indicator;

import java.util.List;
import java.util.Random;
import sweepbook.acquisition.trace.Reading;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.VirtualMachine;

/** An indicator set up against some features of a machine. Read in the order of time, by one thread. */
public final class VirtualIndicator {
    private final IndicatorSettings settings;
    private final Contact contact;
    private final List<Feature> features;
    private final List<Disturbance> disturbances;
    private final Random random;
    private double lagging_mm;

    public VirtualIndicator(
            IndicatorSettings settings,
            Contact contact,
            List<Feature> features,
            List<Disturbance> disturbances,
            Random random) {
        this.settings = settings;
        this.contact = contact;
        this.features = List.copyOf(features);
        this.disturbances = List.copyOf(disturbances);
        this.random = random;
    }

    public IndicatorSettings settings() {
        return settings;
    }

    /** The true press of the plunger, disturbances included; 0 where it hangs free. */
    public double press_mm(double time_s, Pose pose) {
        double press_mm = 0;
        for (Feature feature : features) {
            press_mm = Math.max(press_mm, contact.press_mm(feature, pose));
        }
        return press_mm == 0 ? 0 : Math.max(0, press_mm + shift_mm(time_s, pose));
    }

    /** What the disturbances add to the press while a feature touches. */
    public double shift_mm(double time_s, Pose pose) {
        double shift_mm = 0;
        for (Disturbance disturbance : disturbances) {
            shift_mm += disturbance.shift_mm(time_s, pose);
        }
        return shift_mm;
    }

    /** The reading without hysteresis, noise or rounding. */
    public double level_mm(double time_s, Pose pose) {
        return settings.level_mm(press_mm(time_s, pose));
    }

    /** Looks at the plunger at an instant that has passed on the machine. */
    public Sample read(double time_s, VirtualMachine machine) {
        double press_mm = press_mm(time_s, machine.at(time_s));
        double play_mm = settings.hysteresis_mm() / 2;
        lagging_mm = Math.max(press_mm - play_mm, Math.min(press_mm + play_mm, lagging_mm));
        double noisy_mm = settings.level_mm(lagging_mm) + settings.noise_mm() * random.nextGaussian();
        return new Sample(time_s, new Reading(time_s, settings.display().shown_mm(noisy_mm)), true);
    }
}
