package sweepbook.analysis.runout;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.hipparchus.linear.RealMatrix;
import sweepbook.analysis.runout.circle.CircleFit;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.circle.Roundness;
import sweepbook.analysis.runout.fit.HarmonicChoice;
import sweepbook.analysis.runout.fit.LikelyForm;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Turns a fit into the figures that a person asks for. */
final class Figures {
    /** Samples of a profile on one turn, for its extremes. */
    static final int STEPS = 3600;
    /** A reference circle is looked for among so many points of the profile. */
    private static final int CIRCLE_STEPS = 720;

    /** Below so many standard uncertainties the high spot of an eccentricity could lie anywhere. */
    private static final double LEAST_FOR_ANGLE = 3;

    /** A phase that may be off by a quarter of its cycle is none: there the undulation is as likely nothing. */
    private static final double QUARTER_DEG = 90;

    /** A length of two parts is below this times 1.96 of one's standard uncertainty with 95 % (Rayleigh). */
    private static final double BOTH_PARTS = Math.sqrt(-2 * Math.log(0.05)) / 1.96;

    /** The angle is hardly known better: what is missing of the last turn is no more than that. */
    private static final double SURELY_CLOSED_RAD = Math.toRadians(1);

    private final TurnFit fit;
    private final Samples samples;
    private final RunoutSettings settings;
    private final int order;
    private final double inflation;
    /** The same for all figures, and slow to find. */
    private final double tFactor;

    private RealMatrix covariance;
    private double unseen_mm2;
    private double late_rad;
    private LikelyForm likely;
    private Profile profile;
    private PeakToValley peakToValley;
    private final List<String> warnings = new ArrayList<>();

    Figures(TurnFit fit, Samples samples, double inflation, RunoutSettings settings, int order) {
        this.fit = fit;
        this.samples = samples;
        this.settings = settings;
        this.order = order;
        this.inflation = inflation;
        tFactor = Estimate.tFactor(0.95, fit.degreesOfFreedom());
        covariance = fit.covariance().scalarMultiply(inflation);
    }

    /** Adds a word for the person. */
    void warn(String words) {
        warnings.add(words);
    }

    /** Adds to the covariance of mean, drift and undulations. */
    void allowFor(RealMatrix covariance_mm2) {
        covariance = covariance.add(covariance_mm2);
    }

    /** Allows for all angles being too great or too small alike: a standard uncertainty. */
    void allowLate(double stdU_rad) {
        late_rad = stdU_rad;
    }

    /** Allows for undulations that readings so far apart cannot see: a variance of the profile at one point. */
    void allowUnseen(double variance_mm2) {
        unseen_mm2 = variance_mm2;
    }

    /**
     * All figures.
     *
     * @param all every reading
     * @param keep which of them are not spikes
     * @param angle_rad the angle at each
     * @param apart_rad how far apart readings are: a trace that ends by two of them before the turn is full
     *     holds it
     */
    Finding<Runout> runout(Samples all, boolean[] keep, double[] angle_rad, double apart_rad, AngleZero zero) {
        likely = new LikelyForm(fit, covariance, order, inflation);
        covariance = likely.covariance();
        profile = likely.profile();
        peakToValley = new PeakToValley(fit, likely, unseen_mm2);
        Turns turns = new Turns(
                all, keep, angle_rad, Math.max(RunoutReader.CLOSING * apart_rad, SURELY_CLOSED_RAD), fit, profile);
        if (turns.count() < 1) {
            return Finding.notDetermined(String.format(
                    Locale.ROOT,
                    "the part turned only %.2f of a turn; turn a whole turn or more",
                    turns.span_rad() / (2 * Math.PI)));
        }
        int spikes = 0;
        for (boolean kept : keep) {
            spikes += kept ? 0 : 1;
        }
        if (spikes > 0.02 * all.size()) {
            warnings.add(spikes + " of " + all.size() + " readings are spikes and were left out; look at the cable and"
                    + " at the contact");
        }
        Estimate eccentricity = amplitude(1);
        Finding<Estimate> highSpot = highSpot(zero, eccentricity);
        Estimate movement = peakToValley.of(n -> 1, List.of(profile)).get(0);
        return Finding.found(new Runout(
                turns.count(),
                zero,
                turns.rawFim_mm(),
                movement,
                new Budget(movement.value(), List.of(IndicatorShare.readings(movement))),
                eccentricity,
                highSpot,
                outOfRoundness(),
                harmonics(),
                turns.scatter(),
                drift(),
                fit.scatter_mm(),
                samples.step_mm(),
                spikes,
                profile,
                turns.unrolled(),
                warnings));
    }

    private double variance(double[] gradient) {
        double sum = 0;
        for (int j = 0; j < gradient.length; j++) {
            for (int k = 0; k < gradient.length; k++) {
                sum += gradient[j] * gradient[k] * covariance.getEntry(j, k);
            }
        }
        return Math.max(sum, 0);
    }

    private Estimate estimate(double value, double variance) {
        return new Estimate(value, Math.sqrt(variance), fit.degreesOfFreedom());
    }

    private Estimate amplitude(int upr) {
        double amplitude = profile.amplitude_mm(upr);
        int j = profile.indexOf(upr);
        if (j < 0) {
            // Not told from noise: nothing, give or take what the noise could hide in both parts together.
            double[] hidden_mm2 = likely.hidden_mm2();
            double hidden = upr < hidden_mm2.length ? hidden_mm2[upr] : HarmonicChoice.coefficientVariance(fit);
            return estimate(0, BOTH_PARTS * BOTH_PARTS * hidden);
        }
        double phase = profile.phase_rad(upr);
        double[] gradient = new double[covariance.getRowDimension()];
        gradient[fit.column(j)] = Math.cos(phase);
        gradient[fit.column(j) + 1] = Math.sin(phase);
        boolean told = upr == 1 || likely.stands(upr);
        return estimate(amplitude, variance(gradient) * (told ? 1 : BOTH_PARTS * BOTH_PARTS));
    }

    private Finding<Estimate> highSpot(AngleZero zero, Estimate eccentricity) {
        if (zero == AngleZero.FIRST_READING) {
            return Finding.notDetermined("no mark was seen: the angle has no zero");
        }
        if (eccentricity.value() < LEAST_FOR_ANGLE * eccentricity.stdU()) {
            warnings.add("the eccentricity does not stand out of its uncertainty; it has no high spot");
            return Finding.notDetermined("the eccentricity does not stand out of its uncertainty");
        }
        return phase_deg(1);
    }

    /** Of an undulation that is fitted; in its own cycle, in degrees. */
    private Finding<Estimate> phase_deg(int upr) {
        double phase = profile.phase_rad(upr);
        double amplitude = profile.amplitude_mm(upr);
        double[] gradient = new double[covariance.getRowDimension()];
        int column = fit.column(profile.indexOf(upr));
        gradient[column] = -Math.sin(phase) / amplitude;
        gradient[column + 1] = Math.cos(phase) / amplitude;
        double degree = Math.toDegrees(1);
        double late_deg = upr * late_rad * degree;
        Estimate found = estimate(turn_deg(phase), variance(gradient) * degree * degree + late_deg * late_deg);
        return tFactor * found.stdU() < QUARTER_DEG
                ? Finding.found(found)
                : Finding.notDetermined("the angles are not known well enough to tell where it is greatest");
    }

    private static double turn_deg(double angle_rad) {
        double deg = Math.toDegrees(angle_rad) % 360;
        return deg < 0 ? deg + 360 : deg;
    }

    private List<Harmonic> harmonics() {
        List<Harmonic> list = new ArrayList<>();
        for (int n = 1; n <= order; n++) {
            Finding<Estimate> phase_deg = profile.amplitude_mm(n) > 0 && (n == 1 || likely.stands(n))
                    ? phase_deg(n)
                    : Finding.notDetermined("it does not stand out of the noise");
            list.add(new Harmonic(n, amplitude(n), phase_deg));
        }
        return list;
    }

    private Map<ReferenceCircle, Estimate> outOfRoundness() {
        Profile filtered = profile.filtered(settings.cutoff_upr());
        double[] angle = new double[CIRCLE_STEPS];
        for (int i = 0; i < CIRCLE_STEPS; i++) {
            angle[i] = 2 * Math.PI * i / CIRCLE_STEPS;
        }
        double[] radius = filtered.sampled(CIRCLE_STEPS);
        Map<ReferenceCircle, Double> widths = new EnumMap<>(ReferenceCircle.class);
        List<Profile> departures = new ArrayList<>();
        for (ReferenceCircle circle : ReferenceCircle.values()) {
            // The least-squares circle of equal steps is the mean and first harmonic (ISO 4291), known without a
            // search.
            double[] centre = filtered.centre_mm();
            if (circle != ReferenceCircle.LEAST_SQUARES) {
                Roundness about = CircleFit.ofRunout(circle, angle, radius);
                centre = new double[] {about.x_mm(), about.y_mm()};
                widths.put(circle, about.outOfRoundness_mm());
            }
            departures.add(moved(filtered, centre));
        }
        List<Estimate> ranges =
                peakToValley.of(n -> n == 1 ? 0 : Profile.gaussianWeight(n, settings.cutoff_upr()), departures);
        Map<ReferenceCircle, Estimate> all = new EnumMap<>(ReferenceCircle.class);
        for (ReferenceCircle circle : ReferenceCircle.values()) {
            Estimate range = ranges.get(circle.ordinal());
            double width = widths.getOrDefault(circle, range.value());
            all.put(circle, new Estimate(width, range.stdU(), range.degreesOfFreedom()));
        }
        return all;
    }

    /** The profile about another centre. Which points touch does not change the width to first order. */
    private static Profile moved(Profile curve, double[] centre_mm) {
        double[] cos = curve.cos_mm().clone();
        double[] sin = curve.sin_mm().clone();
        int first = curve.indexOf(1);
        cos[first] -= centre_mm[0];
        sin[first] -= centre_mm[1];
        return new Profile(curve.mean_mm(), curve.upr(), cos, sin);
    }

    private Estimate drift() {
        double change = fit.drift_mm(samples.to_s()) - fit.drift_mm(samples.from_s());
        if (covariance.getRowDimension() == 1 + 2 * profile.upr().length) {
            return Estimate.exact(0);
        }
        Estimate drift = estimate(change, 4 * covariance.getEntry(1, 1));
        if (Math.abs(change) > Math.max(samples.step_mm(), 4 * drift.stdU())) {
            warnings.add(String.format(
                    Locale.ROOT, "the reading drifted by %.4f mm over the trace; it was taken out", change));
        }
        return drift;
    }
}
