package sweepbook.simulator.trial;

import static sweepbook.simulator.trial.SweepTrials.between;
import static sweepbook.simulator.trial.SweepTrials.ratioBetween;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.simulator.indicator.Contact;
import sweepbook.simulator.indicator.Display;
import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.indicator.IndicatorSettings;
import sweepbook.simulator.indicator.Sample;
import sweepbook.simulator.indicator.VirtualIndicator;
import sweepbook.simulator.machine.Carrier;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.machine.Head;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Shape.Pin;
import sweepbook.simulator.machine.Vec3;

/**
 * A round pin in the head, moved in Y past a contact on the table that it presses in +X. At X = 0 and Y = 0 it just touches on
 * the crest.
 *
 * @param settings how the indicator reads
 * @param pin radius of the pin
 * @param ball radius of the contact
 * @param width_mm how far to either side a pass goes
 * @param sweepPress_mm press on the crest while the sweep is made
 * @param click_mm one jog click
 */
record SweepSetUp(
        IndicatorSettings settings,
        double pin_mm,
        double ball_mm,
        double width_mm,
        double sweepPress_mm,
        double click_mm) {
    private static final Display[] METRIC = {
        new Display(LengthUnit.MM, 2000),
        new Display(LengthUnit.MM, 1000),
        new Display(LengthUnit.MM, 500),
        new Display(LengthUnit.MM, 200),
        new Display(LengthUnit.MM, 100)
    };
    private static final Display[] INCH = {
        new Display(LengthUnit.IN, 20000), new Display(LengthUnit.IN, 10000), new Display(LengthUnit.IN, 2000)
    };

    static Display display(Random random) {
        boolean metric = random.nextInt(10) < 7;
        return metric ? METRIC[random.nextInt(METRIC.length)] : INCH[random.nextInt(INCH.length)];
    }

    static SweepSetUp of(SweepKind kind, Random random) {
        Display display = display(random);
        boolean metric = display.unit() == LengthUnit.MM;
        double q_mm = display.resolution_mm();
        double noise_mm = q_mm
                * switch (kind) {
                    case NOISE_2Q -> 2;
                    case COARSE -> between(0.05, 0.2, random);
                    default -> between(0.25, 0.9, random);
                };
        double pin_mm = ratioBetween(3, 25, random);
        double ball_mm = between(0.75, 1.5, random);
        double drop_mm = Math.min(0.8, Math.max(0.015, q_mm * ratioBetween(25, 400, random)));
        double width_mm = Math.min(0.6 * pin_mm, Math.sqrt(2 * (pin_mm + ball_mm) * drop_mm));
        double click_mm = metric ? 0.01 : 0.0254;
        double jogged_mm = click_mm * (3 + random.nextInt(18) + between(-0.5, 0.5, random));
        double sweepPress_mm =
                kind == SweepKind.FREE_START ? drop_mm * between(1.05, 1.5, random) : drop_mm + between(0.2, 1, random);
        IndicatorSettings settings = new IndicatorSettings(
                display,
                random.nextInt(3) == 0 ? -1 : 1,
                sweepPress_mm + jogged_mm,
                noise_mm,
                0,
                1 / ratioBetween(6, 60, random));
        return new SweepSetUp(settings, pin_mm, ball_mm, width_mm, sweepPress_mm, click_mm);
    }

    double reach_mm() {
        return pin_mm + ball_mm;
    }

    /** How far the reading falls off the crest at a distance from it. */
    double drop_mm(double s_mm) {
        return reach_mm() - Math.sqrt(reach_mm() * reach_mm() - s_mm * s_mm);
    }

    /** Distance from the crest at which the plunger just hangs free, when the crest presses it by this much. */
    double clear_mm(double press_mm) {
        double left_mm = reach_mm() - press_mm;
        return Math.sqrt(reach_mm() * reach_mm() - left_mm * left_mm);
    }

    /** The press without disturbances. */
    double press_mm(Pose pose) {
        return contact().press_mm(pin(), pose);
    }

    List<Sample> record(SweepScript script, List<Disturbance> disturbances, Random random) {
        VirtualIndicator indicator = new VirtualIndicator(settings, contact(), List.of(pin()), disturbances, random);
        List<Sample> samples = new ArrayList<>();
        double first_s = settings.interval_s() * random.nextDouble();
        for (int i = 0; ; i++) {
            double time_s = first_s + i * settings.interval_s();
            if (time_s > script.machine().now_s()) {
                return samples;
            }
            samples.add(indicator.read(time_s, script.machine()));
        }
    }

    private Contact contact() {
        return new Contact(Carrier.TABLE, new Vec3(reach_mm(), 0, -10), new Vec3(1, 0, 0), ball_mm, 12);
    }

    private Feature pin() {
        return new Feature("pin", new Head(Vec3.ORIGIN), new Pin(new Vec3(0, 0, -20), new Vec3(0, 0, 1), 40, pin_mm));
    }
}
