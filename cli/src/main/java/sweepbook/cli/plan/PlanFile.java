package sweepbook.cli.plan;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.EntryConvention;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.offset.MachineLimits;
import sweepbook.analysis.offset.Stand;
import sweepbook.analysis.offset.Surroundings;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.PlannedOffset.Habit;
import sweepbook.cli.plan.PlannedOffset.PlannedTouch;
import sweepbook.cli.plan.PlannedOffset.Positions;
import sweepbook.cli.plan.PlannedOffset.TableEntry;

/** Reads a plan from JSON; {@code cli/docs/plans.md} explains every field. */
public final class PlanFile {
    /** A radius told as plus or minus is taken as a 95 % interval of a normal distribution. */
    private static final double U95_TO_STD_U = 1 / 1.96;

    private static final Amount PLAUSIBLE_LENGTH = Amount.of("3.0 mm");
    private static final Amount PLAUSIBLE_ANGLE = Amount.of("1.0 deg");

    private PlanFile() {}

    /** Source is what messages call the text. */
    public static Plan parse(String source, String text) throws IOException {
        JsonFields root = JsonFields.parse(source, text);
        String name = root.text("plan");
        // An editor finds the schema by it.
        root.optionalText("$schema");
        JsonFields machineFields = root.object("machine");
        JsonFields indicatorFields = root.object("indicator");
        Optional<JsonFields> surroundings = root.optionalObject("surroundings");
        TouchConditions conditions = new TouchConditions(
                indicatorLimits(indicatorFields), machineLimits(machineFields), surroundings(surroundings));
        Plan.Machine machine = machine(machineFields);
        Plan.Indicator indicator = indicator(indicatorFields);
        List<Feature> features = features(root);
        List<PlannedOffset> offsets = new ArrayList<>();
        for (JsonFields fields : root.objects("offsets")) {
            PlannedOffset offset = offset(fields, machine, features);
            if (offsets.stream().anyMatch(other -> other.name().equals(offset.name()))) {
                throw fields.fault("name", "'" + offset.name() + "' is there twice; give each offset its own name");
            }
            offsets.add(offset);
        }
        if (offsets.isEmpty()) {
            throw root.fault("offsets", "is empty; plan at least one offset");
        }
        Optional<JsonFields> headFields = root.optionalObject("head");
        Optional<PlannedHead> head = headFields.isEmpty()
                ? Optional.empty()
                : Optional.of(HeadFields.parse(
                        headFields.get(),
                        offsets.stream()
                                .filter(offset -> !offset.method().isAngle())
                                .map(PlannedOffset::name)
                                .collect(Collectors.toSet())));
        root.nothingElse();
        return new Plan(name, machine, indicator, conditions, features, offsets, head);
    }

    private static Plan.Machine machine(JsonFields fields) throws JsonFault {
        List<Plan.Travel> travels = new ArrayList<>();
        for (JsonFields travel : fields.objects("travels")) {
            Plan.Travel way = new Plan.Travel(
                    choice(travel, "axis", Axis.values()), length(travel, "from"), length(travel, "to"));
            travel.nothingElse();
            if (!(way.from().mm() < way.to().mm())) {
                throw travel.fault("to", way.to() + " must be above 'from', " + way.from());
            }
            travels.add(way);
        }
        Plan.Machine machine = new Plan.Machine(
                fields.text("name"),
                fields.text("serial"),
                step(fields, "resolution"),
                step(fields, "jogStep"),
                travels);
        fields.nothingElse();
        return machine;
    }

    private static MachineLimits machineLimits(JsonFields fields) throws JsonFault {
        return new MachineLimits(step(fields, "resolution").mm(), optionalLength_mm(fields, "backlash"));
    }

    private static Plan.Indicator indicator(JsonFields fields) throws JsonFault {
        Plan.Indicator indicator = new Plan.Indicator(
                fields.text("description"),
                fields.text("serial"),
                step(fields, "resolution"),
                fields.optionalText("profile"),
                fields.optionalText("calibrated"));
        fields.nothingElse();
        return indicator;
    }

    private static IndicatorLimits indicatorLimits(JsonFields fields) throws JsonFault {
        return new IndicatorLimits(
                optionalLength_mm(fields, "permissibleError"),
                optionalLength_mm(fields, "independentAfter"),
                optionalLength_mm(fields, "hysteresis"),
                fields.has("tilt_deg") ? fields.number("tilt_deg", 0, 45) : Double.NaN,
                Estimate.exact(1),
                Estimate.exact(fields.has("contactRadius") ? optionalLength_mm(fields, "contactRadius") : 0));
    }

    private static Surroundings surroundings(Optional<JsonFields> fields) throws JsonFault {
        if (fields.isEmpty()) {
            return Surroundings.NOT_STATED;
        }
        double drift_mm_per_s = optionalLength_mm(fields.get(), "driftPerHour") / 3600;
        fields.get().nothingElse();
        return new Surroundings(drift_mm_per_s, Optional.empty());
    }

    private static List<Feature> features(JsonFields root) throws JsonFault {
        List<Feature> features = new ArrayList<>();
        for (JsonFields fields : root.objects("features")) {
            String name = fields.text("name");
            if (features.stream().anyMatch(other -> other.name().equals(name))) {
                throw fields.fault("name", "'" + name + "' is there twice; give each feature its own name");
            }
            if (fields.has("radius")) {
                double stdU_mm =
                        fields.has("radiusU95") ? length(fields, "radiusU95").mm() * U95_TO_STD_U : 0;
                if (stdU_mm < 0) {
                    throw fields.fault("radiusU95", "must not be negative; it is a half-width");
                }
                Estimate radius = new Estimate(step(fields, "radius").mm(), stdU_mm, Double.POSITIVE_INFINITY);
                features.add(new Feature.Round(name, radius));
            } else {
                features.add(new Feature.Flat(name));
            }
            fields.nothingElse();
        }
        return features;
    }

    private static PlannedOffset offset(JsonFields fields, Plan.Machine machine, List<Feature> features)
            throws JsonFault {
        Axis axis = choice(fields, "axis", Axis.values());
        if (machine.travel(axis).isEmpty()) {
            throw fields.fault("axis", axis + " has no travel; add it to the machine's travels");
        }
        List<PlannedTouch> touches = new ArrayList<>();
        for (JsonFields touch : fields.objects("touches")) {
            PlannedTouch made = touch(touch, features);
            if (made.feature() instanceof Feature.Round && made.sweep().equals(axis.name())) {
                throw touch.fault("sweep", "is along " + axis + ", the measured axis; sweep across it");
            }
            touches.add(made);
        }
        int repeats = fields.has("repeats") ? fields.integer("repeats", 1, Repeated.MOST) : 1;
        String name = fields.text("name");
        String title = fields.text("title");
        Method method = MethodFields.parse(fields, machine, axis, repeats);
        TableEntry entry = entry(fields.object("entry"), method);
        Optional<Tolerance> tolerance = tolerance(fields, method);
        Direction direction = choice(fields, "direction", Direction.values());
        Stand stand = choice(fields, "indicatorStands", Stand.values());
        Optional<Pressing> pressing =
                fields.has("pressing") ? Optional.of(choice(fields, "pressing", Pressing.values())) : Optional.empty();
        if (pressing.isEmpty() && touches.stream().anyMatch(touch -> touch.feature() instanceof Feature.Flat)) {
            throw fields.fault(
                    "pressing", "is missing: a flat feature has no crest to tell it from; write raises or lowers");
        }
        Habit habit = fields.has("habit") ? choice(fields, "habit", Habit.values()) : Habit.JOG_TO_ZERO;
        Positions positions =
                fields.has("positions") ? choice(fields, "positions", Positions.values()) : Positions.AT_THE_END;
        Amount plausible = fields.has("plausible")
                ? amount(fields, "plausible", method)
                : method.isAngle() ? PLAUSIBLE_ANGLE : PLAUSIBLE_LENGTH;
        if (!(plausible.inside() > 0)) {
            throw fields.fault("plausible", "must be above 0, not " + plausible);
        }
        fields.nothingElse();
        try {
            return new PlannedOffset(
                    name,
                    title,
                    method,
                    axis,
                    direction,
                    stand,
                    pressing,
                    habit,
                    positions,
                    repeated(touches, repeats),
                    entry,
                    tolerance,
                    plausible);
        } catch (IllegalArgumentException e) {
            throw fields.fault("touches", e.getMessage());
        }
    }

    private static List<PlannedTouch> repeated(List<PlannedTouch> touches, int repeats) {
        return Collections.nCopies(repeats, touches).stream()
                .flatMap(List::stream)
                .toList();
    }

    private static PlannedTouch touch(JsonFields fields, List<Feature> features) throws JsonFault {
        String name = fields.text("feature");
        Feature feature = features.stream()
                .filter(f -> f.name().equals(name))
                .findFirst()
                .orElseThrow(() -> fields.fault("feature", "'" + name + "' is not among the plan's features"));
        PlannedTouch touch =
                new PlannedTouch(feature, fields.optionalText("spot"), fields.text("setUp"), fields.text("sweep"));
        fields.nothingElse();
        return touch;
    }

    private static TableEntry entry(JsonFields fields, Method method) throws JsonFault {
        Amount before = amount(fields, "before", method);
        double factor = fields.has("factor") ? fields.number("factor", 1e-6, 1e6) : 1;
        EntryConvention.SignRule sign = fields.has("sign")
                ? choice(fields, "sign", EntryConvention.SignRule.values())
                : EntryConvention.SignRule.SIGNED;
        EntryConvention.Use use =
                fields.has("use") ? choice(fields, "use", EntryConvention.Use.values()) : EntryConvention.Use.ABSOLUTE;
        String label = fields.text("label");
        fields.nothingElse();
        try {
            return new TableEntry(
                    label, before.value(), new EntryConvention(factor, sign, use, before.unit(), before.decimals()));
        } catch (IllegalArgumentException e) {
            throw fields.fault("sign", e.getMessage());
        }
    }

    private static Optional<Tolerance> tolerance(JsonFields fields, Method method) throws JsonFault {
        Optional<JsonFields> limits = fields.optionalObject("tolerance");
        if (limits.isEmpty()) {
            return Optional.empty();
        }
        double lower = amount(limits.get(), "lower", method).inside();
        double upper = amount(limits.get(), "upper", method).inside();
        limits.get().nothingElse();
        if (!(lower < upper)) {
            throw limits.get().fault("upper", "must be above the lower limit");
        }
        return Optional.of(new Tolerance(lower, upper));
    }

    /** A length or an angle, whichever the method gives. */
    private static Amount amount(JsonFields fields, String field, Method method) throws JsonFault {
        String text = fields.text(field);
        try {
            Amount amount = Amount.of(text);
            if (amount.isAngle() != method.isAngle()) {
                throw fields.fault(
                        field, "must be " + (method.isAngle() ? "an angle in deg" : "a length") + ", not " + amount);
            }
            return amount;
        } catch (IllegalArgumentException e) {
            throw fields.fault(field, e.getMessage());
        }
    }

    private static Length length(JsonFields fields, String field) throws JsonFault {
        String text = fields.text(field);
        try {
            return Length.of(text);
        } catch (IllegalArgumentException e) {
            throw fields.fault(field, e.getMessage());
        }
    }

    /** A length above zero. */
    private static Length step(JsonFields fields, String field) throws JsonFault {
        Length length = length(fields, field);
        if (length.value().compareTo(BigDecimal.ZERO) <= 0) {
            throw fields.fault(field, "must be above 0, not " + length);
        }
        return length;
    }

    /** NaN where the plan does not state it. */
    private static double optionalLength_mm(JsonFields fields, String field) throws JsonFault {
        if (!fields.has(field)) {
            return Double.NaN;
        }
        Length limit = length(fields, field);
        if (limit.value().signum() < 0) {
            throw fields.fault(field, "must not be negative, as " + limit + " is");
        }
        return limit.mm();
    }

    private static <E extends Enum<E>> E choice(JsonFields fields, String field, E[] choices) throws JsonFault {
        Function<E, String> word = choices instanceof Axis[] ? E::name : Word::of;
        return fields.choice(field, List.of(choices), word);
    }
}
