package sweepbook.analysis.runout.separation;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import sweepbook.analysis.runout.Harmonic;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * Peak to valley of what is the part's and of what is the spindle's, told apart from several runs.
 *
 * @param part form of the part
 * @param spindle error motion of the spindle in the direction of the indicator
 * @param mixed undulations that are multiples of this cannot be told apart and count to the spindle; none for a reversal
 */
public record PartAndSpindle(Estimate part, Estimate spindle, OptionalInt mixed) {
    private static final int STEPS = 3600;
    private static final double MUCH_LESS = 0.5;

    /** From a run, and one with part and indicator both turned by 180 degrees. */
    public static PartAndSpindle byReversal(Runout run, Runout reversed) {
        List<Runout> runs = List.of(run, reversed);
        return of(runs, FormReversal.of(run.profile(), reversed.profile()), OptionalInt.empty());
    }

    /** From runs before each of which the part was turned on by an equal step, in the direction of turning. */
    public static Finding<PartAndSpindle> bySteps(List<Runout> runs) {
        List<Profile> profiles = runs.stream().map(Runout::profile).toList();
        List<Profile> backwards = new ArrayList<>(profiles.subList(1, profiles.size()));
        Collections.reverse(backwards);
        backwards.add(0, profiles.get(0));
        Separated apart = MultiStep.of(profiles);
        Separated other = MultiStep.of(backwards);
        // Turned the other way the part averages out, and what it has passes for neither's.
        if (runs.size() > 2 && apart.part().rms_mm() < MUCH_LESS * other.part().rms_mm()) {
            return Finding.notDetermined("the runs fit a part that was turned against the direction of turning before"
                    + " each, or named in another order; name them in the order of equal steps on");
        }
        return Finding.found(of(runs, apart, OptionalInt.of(runs.size())));
    }

    private static PartAndSpindle of(List<Runout> runs, Separated apart, OptionalInt mixed) {
        double step_rad = mixed.isEmpty() ? 0 : 2 * Math.PI / runs.size();
        return new PartAndSpindle(range(apart.part(), runs, -step_rad), range(apart.spindle(), runs, 0), mixed);
    }

    /** Each run has an equal share in the curve, up to its sign; run k is read at the curve's angle + k times back. */
    private static Estimate range(Profile curve, List<Runout> runs, double back_rad) {
        double[] f = curve.sampled(STEPS);
        int max = 0;
        int min = 0;
        for (int i = 1; i < STEPS; i++) {
            max = f[i] > f[max] ? i : max;
            min = f[i] < f[min] ? i : min;
        }
        double high_rad = 2 * Math.PI * max / STEPS;
        double low_rad = 2 * Math.PI * min / STEPS;
        double variance = 0;
        double freedom = Double.POSITIVE_INFINITY;
        for (int k = 0; k < runs.size(); k++) {
            Profile form = runs.get(k).profile().aboutItsCentre();
            double slope_mm = slope_mm(form, high_rad + k * back_rad) - slope_mm(form, low_rad + k * back_rad);
            variance += Math.pow(slope_mm * zeroStdU_rad(runs.get(k)), 2);
            for (Harmonic h : runs.get(k).harmonics()) {
                double u_mm = h.upr() == 1 ? 0 : h.amplitude().stdU();
                variance += u_mm * u_mm * (2 - 2 * Math.cos(h.upr() * (high_rad - low_rad)));
                freedom = Math.min(freedom, h.amplitude().degreesOfFreedom());
            }
        }
        return new Estimate(f[max] - f[min], Math.sqrt(variance) / runs.size(), freedom);
    }

    /** How well the run's mark is placed: every phase holds it, the best known one little besides. */
    private static double zeroStdU_rad(Runout run) {
        return run.harmonics().stream()
                .flatMap(h -> h.phase_deg().asOptional().stream().map(phase -> Math.toRadians(phase.stdU()) / h.upr()))
                .min(Double::compare)
                .orElse(0.0);
    }

    private static double slope_mm(Profile form, double angle_rad) {
        double step_rad = 2 * Math.PI / STEPS;
        return (form.at(angle_rad + step_rad) - form.at(angle_rad - step_rad)) / (2 * step_rad);
    }
}
