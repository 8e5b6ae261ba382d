package sweepbook.cli.plan;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

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
