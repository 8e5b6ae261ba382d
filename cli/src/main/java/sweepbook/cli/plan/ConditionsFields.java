package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.offset.LeverContact;
import sweepbook.analysis.offset.MachineLimits;
import sweepbook.analysis.offset.Surroundings;
import sweepbook.analysis.offset.Temperature;
import sweepbook.analysis.uncertainty.Estimate;

/** Reads what the uncertainty takes from machine, indicator and surroundings. */
final class ConditionsFields {
    /** ISO 1. */
    private static final double REFERENCE_C = 20;

    /** Twice that of aluminium: whatever is steeper is a slip. */
    private static final double STEEPEST_PER_K = 5e-5;

    private ConditionsFields() {}

    static MachineLimits machine(JsonFields fields) throws JsonFault {
        return new MachineLimits(
                PlanFields.step(fields, "resolution").mm(), PlanFields.optionalLength_mm(fields, "backlash"));
    }

    static IndicatorLimits indicator(JsonFields fields) throws JsonFault {
        return new IndicatorLimits(
                PlanFields.optionalLength_mm(fields, "permissibleError"),
                PlanFields.optionalLength_mm(fields, "independentAfter"),
                PlanFields.optionalLength_mm(fields, "hysteresis"),
                fields.has("tilt_deg") ? fields.number("tilt_deg", 0, 45) : Double.NaN,
                readingScale(fields),
                contactRadius(fields));
    }

    private static Estimate readingScale(JsonFields fields) throws JsonFault {
        if (!fields.has("leverAngle_deg")) {
            return fields.has("readingScale")
                    ? PlanFields.estimate(fields, "readingScale", 0.5, 2, "readingScaleU95")
                    : Estimate.exact(1);
        }
        if (fields.has("readingScale")) {
            throw fields.fault("readingScale", "holds the lever's angle already; leave one of the two out");
        }
        return LeverContact.readingScale(PlanFields.estimate(fields, "leverAngle_deg", -80, 80, "leverAngleU95_deg"));
    }

    private static Estimate contactRadius(JsonFields fields) throws JsonFault {
        double radius_mm = fields.has("contactRadius") ? PlanFields.optionalLength_mm(fields, "contactRadius") : 0;
        return PlanFields.estimate_mm(fields, radius_mm, "contactRadiusU95");
    }

    /** Deviation against reading, from the indicator's calibration. */
    static Optional<CalibrationTable> calibration(JsonFields fields) throws JsonFault {
        if (!fields.has("calibration")) {
            return Optional.empty();
        }
        List<CalibrationTable.Point> points = new ArrayList<>();
        for (JsonFields point : fields.objects("calibration")) {
            points.add(new CalibrationTable.Point(
                    PlanFields.length(point, "reading").mm(),
                    PlanFields.length(point, "deviation").mm()));
            point.nothingElse();
        }
        try {
            return Optional.of(new CalibrationTable(points));
        } catch (IllegalArgumentException e) {
            throw fields.fault("calibration", e.getMessage());
        }
    }

    static Surroundings surroundings(Optional<JsonFields> fields) throws JsonFault {
        if (fields.isEmpty()) {
            return Surroundings.NOT_STATED;
        }
        double drift_mm_per_s = PlanFields.optionalLength_mm(fields.get(), "driftPerHour") / 3600;
        Optional<JsonFields> temperature = fields.get().optionalObject("temperature");
        fields.get().nothingElse();
        return new Surroundings(
                drift_mm_per_s, temperature.isEmpty() ? Optional.empty() : Optional.of(temperature(temperature.get())));
    }

    private static Temperature temperature(JsonFields fields) throws JsonFault {
        Estimate part_C = PlanFields.estimate(fields, "part_C", -30, 60, "partU95_K");
        Estimate scale_C = PlanFields.estimate(fields, "scale_C", -30, 60, "scaleU95_K");
        Estimate part_per_K =
                PlanFields.estimate(fields, "partExpansion_per_K", 0, STEEPEST_PER_K, "partExpansionU95_per_K");
        Estimate scale_per_K =
                PlanFields.estimate(fields, "scaleExpansion_per_K", 0, STEEPEST_PER_K, "scaleExpansionU95_per_K");
        fields.nothingElse();
        return new Temperature(
                less(part_C, Estimate.exact(REFERENCE_C)),
                scale_per_K,
                less(part_per_K, scale_per_K),
                less(part_C, scale_C));
    }

    private static Estimate less(Estimate one, Estimate other) {
        return new Estimate(
                one.value() - other.value(), Math.hypot(one.stdU(), other.stdU()), Double.POSITIVE_INFINITY);
    }
}
