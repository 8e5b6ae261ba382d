package sweepbook.analysis.runout;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * What the trace of a turned part says. Lengths in millimetres; angles count in the direction of turning.
 *
 * @param turns whole turns in the trace
 * @param angleZero where angles count from
 * @param rawFim_mm greatest less least reading of a turn as read, spikes and noise in it; of all turns the greatest
 * @param fim full indicator movement of the profile, spikes, noise and drift taken out
 * @param fimBudget where the uncertainty of that comes from
 * @param eccentricity amplitude of the first harmonic: half of what the eccentricity alone moves the indicator
 * @param highSpotAngle_deg where the first harmonic is greatest
 * @param outOfRoundness peak to valley about each reference circle, filtered
 * @param harmonics from 1 to the order looked at; those not told from noise too
 * @param scatter how well the turns repeat; needs two
 * @param drift change of the reading over the whole trace that is not the part's
 * @param noise_mm standard deviation of one reading about profile and drift
 * @param step_mm step of the display, 0 where there is none
 * @param setAside readings left out as spikes
 * @param profile the curve fitted, unfiltered
 * @param unrolled the readings against the angle
 * @param warnings what the person should know or redo, in plain words
 */
public record Runout(
        int turns,
        AngleZero angleZero,
        double rawFim_mm,
        Estimate fim,
        Budget fimBudget,
        Estimate eccentricity,
        Finding<Estimate> highSpotAngle_deg,
        Map<ReferenceCircle, Estimate> outOfRoundness,
        List<Harmonic> harmonics,
        Finding<TurnScatter> scatter,
        Estimate drift,
        double noise_mm,
        double step_mm,
        int setAside,
        Profile profile,
        Unrolled unrolled,
        List<String> warnings) {
    public Runout {
        outOfRoundness = Map.copyOf(outOfRoundness);
        harmonics = List.copyOf(harmonics);
        warnings = List.copyOf(warnings);
    }

    /** As read; within its U95 lies the movement itself, however far spikes and noise have driven it. */
    public Estimate rawFim() {
        double dof = fim.degreesOfFreedom();
        double beyond = Math.abs(rawFim_mm - fim.value()) / Estimate.tFactor(0.95, dof);
        return new Estimate(rawFim_mm, beyond + fim.stdU(), dof);
    }

    /** The same with one more word for the person. */
    Runout warned(String words) {
        List<String> more = new ArrayList<>(warnings);
        more.add(words);
        return new Runout(
                turns,
                angleZero,
                rawFim_mm,
                fim,
                fimBudget,
                eccentricity,
                highSpotAngle_deg,
                outOfRoundness,
                harmonics,
                scatter,
                drift,
                noise_mm,
                step_mm,
                setAside,
                profile,
                unrolled,
                more);
    }
}
