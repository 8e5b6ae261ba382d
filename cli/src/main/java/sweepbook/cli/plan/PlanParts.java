package sweepbook.cli.plan;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * The measurements that come with the program, each by the geometry that it finds, to be put together with a machine into
 * a plan.
 */
public final class PlanParts {
    /** In the order in which a set-up needs them: angles first, for a wrong zero spoils what is measured by tilting. */
    public static final List<String> NAMES = List.of(
            "zero-of-the-swivel",
            "zero-of-the-tilt",
            "tram",
            "swivel-axis-to-spindle",
            "swivel-axis-to-tilt-axis",
            "tilt-axis-to-spindle",
            "tilt-axis-to-gauge-face",
            "spindle-to-drill",
            "tilt-axis-to-drill");

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final String DEMO_MACHINE = "joinery-head";

    private PlanParts() {}

    /** What the part is called. */
    public static String title(String name) {
        return resource("geometry/" + name).get("plan").asText();
    }

    /** The part as it is written for a plan: its title, its features and its offsets. */
    public static ObjectNode part(String name) {
        return resource("geometry/" + name);
    }

    /** The same with its lengths in the unit; inches get one decimal more. */
    static ObjectNode in(LengthUnit unit, ObjectNode part) {
        return unit == LengthUnit.MM ? part : (ObjectNode) inInches(part);
    }

    private static JsonNode inInches(JsonNode node) {
        if (node instanceof ObjectNode object) {
            object.properties().forEach(field -> field.setValue(inInches(field.getValue())));
        } else if (node instanceof ArrayNode list) {
            for (int i = 0; i < list.size(); i++) {
                list.set(i, inInches(list.get(i)));
            }
        } else if (node.isTextual() && node.asText().matches("-?[0-9.]+ mm")) {
            Length length = Length.of(node.asText());
            BigDecimal inches = BigDecimal.valueOf(LengthUnit.IN.fromMm(length.mm()))
                    .setScale(length.decimals() + 1, RoundingMode.HALF_UP);
            return TextNode.valueOf(new Length(inches, LengthUnit.IN).toString());
        }
        return node;
    }

    /** A plan of one part for the machine of the demonstration. */
    static String plan(String name) {
        ObjectNode demo = resource(DEMO_MACHINE);
        ObjectNode plan = JSON.createObjectNode();
        plan.set("plan", part(name).get("plan"));
        for (String field : List.of("machine", "indicator", "surroundings")) {
            plan.set(field, demo.get(field));
        }
        plan.set("features", part(name).get("features"));
        plan.set("offsets", part(name).get("offsets"));
        head(plan).ifPresent(head -> plan.set("head", head));
        return text(plan);
    }

    /** The head with what the plan measures left open; empty where it measures nothing of it. */
    private static Optional<ObjectNode> head(ObjectNode plan) {
        Set<String> measured = new HashSet<>();
        plan.get("offsets").forEach(offset -> measured.add(offset.get("name").asText()));
        ObjectNode head = resource("geometry/head");
        boolean belongs = false;
        for (JsonNode joint : head.get("toTool")) {
            String entry = joint.path("length").asText(joint.path("zero").asText());
            boolean isMeasured = measured.contains(entry);
            belongs |= isMeasured;
            if (isMeasured) {
                ((ObjectNode) joint).remove("value");
            } else {
                ((ObjectNode) joint).remove("zero");
            }
        }
        return belongs ? Optional.of(head) : Optional.empty();
    }

    /** The plan as a person likes to read it. */
    public static String text(ObjectNode plan) {
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
        printer.indentArraysWith(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE.withLinefeed("\n"));
        printer.indentObjectsWith(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE.withLinefeed("\n"));
        try {
            return JSON.writer(printer).writeValueAsString(plan) + "\n";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static ObjectNode resource(String name) {
        try (InputStream in = PlanParts.class.getResourceAsStream(name + ".json")) {
            return (ObjectNode) JSON.readTree(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
