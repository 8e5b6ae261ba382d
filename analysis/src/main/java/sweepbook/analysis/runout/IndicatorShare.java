package sweepbook.analysis.runout;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * What the indicator itself adds to the uncertainty of a runout, which no reading shows: its permissible error, its
 * hysteresis, the scale and the tilt. All figures are differences of readings within one movement of the contact, so
 * that an error which both readings share drops out.
 */
final class IndicatorShare {
    private static final String NOT_STATED = "U95 holds what the readings show; the indicator's own error is not stated"
            + " and not in it (a plan states it)";

    private final IndicatorLimits limits;

    IndicatorShare(IndicatorLimits limits) {
        this.limits = limits;
    }

    /** The line of everything that the readings themselves show. */
    static BudgetLine readings(Estimate figure) {
        return BudgetLine.of(
                "readings: noise, display step, turning, form that noise hides",
                figure,
                1,
                "turn more often and more evenly; more marks; a finer display");
    }

    Runout addTo(Runout r) {
        double movement_mm = r.fim().value();
        Map<ReferenceCircle, Estimate> round = new EnumMap<>(ReferenceCircle.class);
        r.outOfRoundness()
                .forEach((circle, e) ->
                        round.put(circle, difference(e, movement_mm).combined()));
        List<Harmonic> harmonics = new ArrayList<>();
        for (Harmonic h : r.harmonics()) {
            harmonics.add(new Harmonic(
                    h.upr(),
                    half(h.amplitude(), movement_mm),
                    h.phase_deg().map(phase -> direction(phase, h.amplitude().value(), movement_mm))));
        }
        Budget fim = difference(r.fim(), movement_mm);
        Estimate eccentricity = half(r.eccentricity(), movement_mm);
        Runout whole = new Runout(
                r.turns(),
                r.angleZero(),
                r.rawFim_mm(),
                fim.combined(),
                fim,
                eccentricity,
                r.highSpotAngle_deg()
                        .map(angle -> direction(angle, r.eccentricity().value(), movement_mm)),
                round,
                harmonics,
                r.scatter(),
                r.drift(),
                r.noise_mm(),
                r.step_mm(),
                r.setAside(),
                r.profile(),
                r.unrolled(),
                r.warnings());
        return Double.isNaN(limits.permissibleError_mm()) ? whole.warned(NOT_STATED) : whole;
    }

    /** A difference of two readings somewhere in the movement. */
    private Budget difference(Estimate figure, double movement_mm) {
        Budget budget = new Budget(figure.value(), List.of(readings(figure)));
        if (limits.permissibleError_mm() > 0) {
            budget = budget.with(BudgetLine.within(
                    "indicator's error at the two ends of the movement",
                    Distribution.RECTANGULAR,
                    limits.permissibleError_mm(),
                    Math.sqrt(2 * (1 - limits.errorCorrelation(movement_mm))),
                    "a better indicator; state from which distance its errors are independent"));
        }
        if (limits.hysteresis_mm() > 0) {
            budget = budget.with(BudgetLine.within(
                    "indicator's hysteresis",
                    Distribution.RECTANGULAR,
                    limits.hysteresis_mm() / 2,
                    Math.sqrt(2),
                    "an indicator that turns round with less play"));
        }
        // The readings were multiplied by the scale already.
        double read = figure.value() / limits.readingScale().value();
        budget = budget.with(BudgetLine.of(
                        "scale of the readings, lever's angle",
                        limits.readingScale(),
                        read,
                        "set the lever flat to the surface")
                .in(""));
        if (limits.tilt_deg() > 0) {
            double tilt_rad = Math.toRadians(limits.tilt_deg());
            budget = budget.with(new BudgetLine(
                            "cosine of the indicator's tilt",
                            Distribution.RECTANGULAR,
                            tilt_rad * tilt_rad / Math.sqrt(20),
                            figure.value(),
                            Double.POSITIVE_INFINITY,
                            "set the indicator square to the surface")
                    .in(""));
        }
        return budget;
    }

    /** An amplitude is half a difference. */
    private Estimate half(Estimate amplitude, double movement_mm) {
        Estimate whole = new Estimate(2 * amplitude.value(), 2 * amplitude.stdU(), amplitude.degreesOfFreedom());
        return difference(whole, movement_mm).times(0.5).combined();
    }

    /**
     * An error across the amplitude turns it, as far as the same error along it would lengthen it; and hysteresis lets
     * the readings lag: a square wave of half of it across the amplitude, of which 2 / pi times all is the harmonic.
     */
    private Estimate direction(Estimate angle_deg, double amplitude_mm, double movement_mm) {
        double error_mm = half(Estimate.exact(0), movement_mm).stdU();
        double lag_mm = Double.isNaN(limits.hysteresis_mm())
                ? 0
                : Distribution.RECTANGULAR.stdU(2 / Math.PI * limits.hysteresis_mm());
        Estimate across_deg =
                new Estimate(0, Math.toDegrees(Math.hypot(error_mm, lag_mm) / amplitude_mm), Double.POSITIVE_INFINITY);
        return new Budget(
                        angle_deg.value(),
                        List.of(BudgetLine.of("", angle_deg, 1, ""), BudgetLine.of("", across_deg, 1, "")))
                .combined();
    }
}
