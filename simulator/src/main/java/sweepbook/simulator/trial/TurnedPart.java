package sweepbook.simulator.trial;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/**
 * A round part that turns about an axis which is not quite its own.
 *
 * @param eccentricity_mm distance of its centre from that axis
 * @param highSpot_deg angle of turning at which the centre points to the contact
 * @param reach_mm radius of the part and the contact together
 * @param form its undulations from two a turn on
 */
record TurnedPart(double eccentricity_mm, double highSpot_deg, double reach_mm, List<Harmonic> form) {
    TurnedPart {
        form = List.copyOf(form);
    }

    static TurnedPart of(double step_mm, Random random) {
        double reach_mm = SweepTrials.ratioBetween(10, 60, random);
        // An off-centre circle looks oval by e^2 / (4 Re); kept to a twentieth of a step, it is no matter.
        double most_mm = Math.sqrt(0.2 * reach_mm * step_mm);
        double eccentricity_mm = Math.min(most_mm, step_mm * SweepTrials.ratioBetween(8, 120, random));
        List<Harmonic> form = new ArrayList<>();
        for (int upr = 2; upr <= 9; upr++) {
            double amplitude_mm = step_mm * SweepTrials.between(0, 8, random) / (upr * Math.sqrt(upr));
            form.add(new Harmonic(upr, amplitude_mm, SweepTrials.between(0, 360, random)));
        }
        return new TurnedPart(eccentricity_mm, SweepTrials.between(0, 360, random), reach_mm, form);
    }

    /** How far the surface stands out at the contact: exact for a circle off its axis, with its undulations on top. */
    double standsOut_mm(double angle_deg) {
        double from_rad = Math.toRadians(angle_deg - highSpot_deg);
        double across_mm = eccentricity_mm * Math.sin(from_rad);
        return eccentricity_mm * Math.cos(from_rad)
                + Math.sqrt(reach_mm * reach_mm - across_mm * across_mm)
                - reach_mm
                + form_mm(angle_deg);
    }

    double fim_mm() {
        return range_mm(this::standsOut_mm);
    }

    /** Peak to valley about the least-squares circle: what the undulations from two a turn on make together. */
    double outOfRoundness_mm() {
        return range_mm(this::form_mm);
    }

    double form_mm(double angle_deg) {
        return form.stream().mapToDouble(harmonic -> harmonic.at_mm(angle_deg)).sum();
    }

    private static double range_mm(DoubleUnaryOperator profile) {
        double least_mm = Double.POSITIVE_INFINITY;
        double greatest_mm = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < 3600; i++) {
            double at_mm = profile.applyAsDouble(0.1 * i);
            least_mm = Math.min(least_mm, at_mm);
            greatest_mm = Math.max(greatest_mm, at_mm);
        }
        return greatest_mm - least_mm;
    }
}
