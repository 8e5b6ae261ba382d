package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.EntryConvention;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Stand;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.PlannedOffset.TableEntry;
import sweepbook.cli.plan.TouchSeries.Habit;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;
import sweepbook.cli.plan.TouchSeries.Positions;

/** Reads one offset of a plan. */
final class OffsetFields {
    private static final Amount PLAUSIBLE_LENGTH = Amount.of("3.0 mm");
    private static final Amount PLAUSIBLE_ANGLE = Amount.of("1.0 deg");

    private OffsetFields() {}

    /**
     * @param before the offsets that stand before it in the plan
     */
    static PlannedOffset parse(
            JsonFields fields, Plan.Machine machine, List<Feature> features, List<PlannedOffset> before)
            throws JsonFault {
        String name = fields.text("name");
        if (before.stream().anyMatch(other -> other.name().equals(name))) {
            throw fields.fault("name", "'" + name + "' is there twice; give each offset its own name");
        }
        int repeats = fields.has("repeats") ? fields.integer("repeats", 1, Repeated.MOST) : 1;
        boolean isShared = fields.has("sameTouchesAs");
        TouchSeries series = isShared ? shared(fields, before) : series(name, fields, machine, features, repeats);
        String title = fields.text("title");
        Method method = MethodFields.parse(fields, machine, series.axis(), repeats);
        TableEntry entry = entry(fields.object("entry"), method);
        Optional<Tolerance> tolerance = tolerance(fields, method);
        Amount plausible = fields.has("plausible")
                ? amount(fields, "plausible", method)
                : method.isAngle() ? PLAUSIBLE_ANGLE : PLAUSIBLE_LENGTH;
        if (!(plausible.inside() > 0)) {
            throw fields.fault("plausible", "must be above 0, not " + plausible);
        }
        fields.nothingElse();
        try {
            return new PlannedOffset(name, title, method, series, entry, tolerance, plausible);
        } catch (IllegalArgumentException e) {
            throw fields.fault(isShared ? "sameTouchesAs" : "touches", e.getMessage());
        }
    }

    /** The touches of an offset before it. */
    private static TouchSeries shared(JsonFields fields, List<PlannedOffset> before) throws JsonFault {
        String name = fields.text("sameTouchesAs");
        return before.stream()
                .filter(other -> other.name().equals(name))
                .map(PlannedOffset::series)
                .findFirst()
                .orElseThrow(() -> fields.fault("sameTouchesAs", "'" + name + "' is no offset before this one"));
    }

    private static TouchSeries series(
            String name, JsonFields fields, Plan.Machine machine, List<Feature> features, int repeats)
            throws JsonFault {
        Axis axis = PlanFields.choice(fields, "axis", Axis.values());
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
        Direction direction = PlanFields.choice(fields, "direction", Direction.values());
        Stand stand = PlanFields.choice(fields, "indicatorStands", Stand.values());
        Optional<Pressing> pressing = fields.has("pressing")
                ? Optional.of(PlanFields.choice(fields, "pressing", Pressing.values()))
                : Optional.empty();
        if (pressing.isEmpty() && touches.stream().anyMatch(touch -> touch.feature() instanceof Feature.Flat)) {
            throw fields.fault(
                    "pressing", "is missing: a flat feature has no crest to tell it from; write raises or lowers");
        }
        Habit habit = fields.has("habit") ? PlanFields.choice(fields, "habit", Habit.values()) : Habit.JOG_TO_ZERO;
        Positions positions = fields.has("positions")
                ? PlanFields.choice(fields, "positions", Positions.values())
                : Positions.AT_THE_END;
        try {
            return new TouchSeries(
                    name, axis, direction, stand, pressing, habit, positions, repeated(touches, repeats));
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
        PlannedTouch touch = new PlannedTouch(
                feature,
                fields.optionalText("spot"),
                fields.optionalText("point"),
                fields.optionalText("stand"),
                fields.text("setUp"),
                fields.text("sweep"));
        fields.nothingElse();
        return touch;
    }

    private static TableEntry entry(JsonFields fields, Method method) throws JsonFault {
        Amount before = amount(fields, "before", method);
        double factor = fields.has("factor") ? fields.number("factor", 1e-6, 1e6) : 1;
        EntryConvention.SignRule sign = fields.has("sign")
                ? PlanFields.choice(fields, "sign", EntryConvention.SignRule.values())
                : EntryConvention.SignRule.SIGNED;
        EntryConvention.Use use = fields.has("use")
                ? PlanFields.choice(fields, "use", EntryConvention.Use.values())
                : EntryConvention.Use.ABSOLUTE;
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
}
