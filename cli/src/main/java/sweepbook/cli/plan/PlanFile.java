package sweepbook.cli.plan;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.uncertainty.Estimate;

/** Reads a plan from JSON; {@code cli/docs/plans.md} explains every field. */
public final class PlanFile {
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
                ConditionsFields.indicator(indicatorFields),
                ConditionsFields.machine(machineFields),
                ConditionsFields.surroundings(surroundings));
        Plan.Machine machine = machine(machineFields);
        Plan.Indicator indicator = indicator(indicatorFields);
        List<Feature> features = features(root);
        List<PlannedOffset> offsets = new ArrayList<>();
        for (JsonFields fields : root.objects("offsets")) {
            offsets.add(OffsetFields.parse(fields, machine, features, offsets));
        }
        if (offsets.isEmpty()) {
            throw root.fault("offsets", "is empty; plan at least one offset");
        }
        Optional<JsonFields> headFields = root.optionalObject("head");
        Optional<PlannedHead> head = headFields.isEmpty()
                ? Optional.empty()
                : Optional.of(HeadFields.parse(headFields.get(), names(offsets, false), names(offsets, true)));
        root.nothingElse();
        return new Plan(name, machine, indicator, conditions, features, offsets, head);
    }

    private static Set<String> names(List<PlannedOffset> offsets, boolean areAngles) {
        return offsets.stream()
                .filter(offset -> offset.method().isAngle() == areAngles)
                .map(PlannedOffset::name)
                .collect(Collectors.toSet());
    }

    private static Plan.Machine machine(JsonFields fields) throws JsonFault {
        List<Plan.Travel> travels = new ArrayList<>();
        for (JsonFields travel : fields.objects("travels")) {
            Plan.Travel way = new Plan.Travel(
                    PlanFields.choice(travel, "axis", Axis.values()),
                    PlanFields.length(travel, "from"),
                    PlanFields.length(travel, "to"));
            travel.nothingElse();
            if (!(way.from().mm() < way.to().mm())) {
                throw travel.fault("to", way.to() + " must be above 'from', " + way.from());
            }
            travels.add(way);
        }
        Plan.Machine machine = new Plan.Machine(
                fields.text("name"),
                fields.text("serial"),
                PlanFields.step(fields, "resolution"),
                PlanFields.step(fields, "jogStep"),
                travels);
        fields.nothingElse();
        return machine;
    }

    private static Plan.Indicator indicator(JsonFields fields) throws JsonFault {
        Plan.Indicator indicator = new Plan.Indicator(
                fields.text("description"),
                fields.text("serial"),
                PlanFields.step(fields, "resolution"),
                fields.optionalText("profile"),
                fields.optionalText("calibrated"),
                ConditionsFields.calibration(fields));
        fields.nothingElse();
        return indicator;
    }

    private static List<Feature> features(JsonFields root) throws JsonFault {
        List<Feature> features = new ArrayList<>();
        for (JsonFields fields : root.objects("features")) {
            String name = fields.text("name");
            if (features.stream().anyMatch(other -> other.name().equals(name))) {
                throw fields.fault("name", "'" + name + "' is there twice; give each feature its own name");
            }
            if (fields.has("radius")) {
                Estimate radius = PlanFields.estimate_mm(
                        fields, PlanFields.step(fields, "radius").mm(), "radiusU95");
                features.add(new Feature.Round(name, radius));
            } else {
                features.add(new Feature.Flat(name));
            }
            fields.nothingElse();
        }
        return features;
    }
}
