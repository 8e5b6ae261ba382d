package sweepbook.cli.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;
import sweepbook.analysis.head.Joint;
import sweepbook.analysis.head.Kinematics;

/** Reads the head of a plan: the joints from the linear axes to the tool, and where the part turns, those to the part. */
final class HeadFields {
    private static final double FULL_TURN_DEG = 360;

    /** Directions at the machine's zero, as a plan writes them. */
    private enum Along {
        PLUS_X("+X", 1, 0, 0),
        MINUS_X("-X", -1, 0, 0),
        PLUS_Y("+Y", 0, 1, 0),
        MINUS_Y("-Y", 0, -1, 0),
        PLUS_Z("+Z", 0, 0, 1),
        MINUS_Z("-Z", 0, 0, -1);

        private final String word;
        private final double x;
        private final double y;
        private final double z;

        Along(String word, double x, double y, double z) {
            this.word = word;
            this.x = x;
            this.y = y;
            this.z = z;
        }

        String word() {
            return word;
        }
    }

    private final Set<String> lengths;
    private final Set<String> angles;
    private final Map<String, Double> stated = new TreeMap<>();
    private final List<PlannedHead.Swing> swings = new ArrayList<>();

    private HeadFields(Set<String> lengths, Set<String> angles) {
        this.lengths = lengths;
        this.angles = angles;
    }

    /**
     * @param lengths names of the plan's offsets that are lengths: a length of such a name needs no value of its own
     * @param angles names of those that are angles: one may be the reference of a rotary axis
     */
    static PlannedHead parse(JsonFields fields, Set<String> lengths, Set<String> angles) throws JsonFault {
        HeadFields head = new HeadFields(lengths, angles);
        List<Joint> toTool = head.joints(fields, "toTool");
        List<Joint> toPart = fields.has("toPart") ? head.joints(fields, "toPart") : List.of();
        fields.nothingElse();
        if (head.swings.isEmpty()) {
            throw fields.fault("toTool", "has no rotary axis; without one no length matters");
        }
        return new PlannedHead(new Kinematics(toTool, toPart), head.stated, head.swings);
    }

    private List<Joint> joints(JsonFields fields, String chain) throws JsonFault {
        List<Joint> joints = new ArrayList<>();
        for (JsonFields joint : fields.objects(chain)) {
            joints.add(joint.has("rotary") ? rotary(joint) : length(joint));
            joint.nothingElse();
        }
        return joints;
    }

    private Joint rotary(JsonFields fields) throws JsonFault {
        String axis = fields.text("rotary");
        Along about = fields.choice("about", List.of(Along.values()), Along::word);
        double from_deg = fields.number("from_deg", -FULL_TURN_DEG, FULL_TURN_DEG);
        double to_deg = fields.number("to_deg", from_deg, FULL_TURN_DEG);
        if (swings.stream().anyMatch(swing -> swing.axis().equals(axis))) {
            throw fields.fault("rotary", "'" + axis + "' is there twice; give each axis its own name");
        }
        swings.add(new PlannedHead.Swing(axis, from_deg, to_deg));
        return new Joint.Rotary(axis, reference(fields, axis), about.x, about.y, about.z);
    }

    private String reference(JsonFields fields, String axis) throws JsonFault {
        if (!fields.has("zero")) {
            String reference = axis.toLowerCase(Locale.ROOT) + "-zero";
            stated.put(reference, 0.0);
            return reference;
        }
        String reference = fields.text("zero");
        if (!angles.contains(reference)) {
            throw fields.fault("zero", "'" + reference + "' is no offset of this plan that gives an angle");
        }
        return reference;
    }

    private Joint length(JsonFields fields) throws JsonFault {
        String entry = fields.text("length");
        Along along = fields.choice("along", List.of(Along.values()), Along::word);
        if (!lengths.contains(entry)) {
            String value = fields.text("value");
            try {
                stated.put(entry, Length.of(value).mm());
            } catch (IllegalArgumentException e) {
                throw fields.fault("value", e.getMessage());
            }
        } else if (fields.has("value")) {
            throw fields.fault("value", "is not needed: the offset '" + entry + "' of this plan has it");
        }
        return new Joint.Length(entry, along.x, along.y, along.z);
    }
}
