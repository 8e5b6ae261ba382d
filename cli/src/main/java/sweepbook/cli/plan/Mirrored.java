package sweepbook.cli.plan;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.regex.Pattern;

/**
 * A bundled measurement for the other head: one that tilts about Y (B) instead of X (A). The two heads are mirror images of
 * each other: X and Y change places, and with them the sense of every turn. Signs need no other care, for each result counts
 * along its own axis.
 */
final class Mirrored {
    private static final Pattern TILTED = Pattern.compile("\\bA to (-?)90\\b");

    private Mirrored() {}

    static ObjectNode aboutB(ObjectNode part) {
        ObjectNode mirrored = part.deepCopy();
        for (JsonNode node : mirrored.get("offsets")) {
            ObjectNode offset = (ObjectNode) node;
            // The circle of a tram does not turn with the head; its angles are told from plus X as ever.
            boolean swaps = !offset.get("method").asText().equals(TramMethod.WORD);
            for (String field : new String[] {"axis", "travelAxis", "title"}) {
                change(offset, field, swaps);
            }
            change((ObjectNode) offset.get("entry"), "label", swaps);
            if (offset.has("rotary") && offset.get("rotary").asText().equals("A")) {
                offset.put("rotary", "B");
            }
            if (swaps && offset.get("name").asText().endsWith("-y")) {
                offset.put("name", offset.get("name").asText().replaceFirst("-y$", "-x"));
            }
            for (JsonNode touch : offset.path("touches")) {
                change((ObjectNode) touch, "setUp", swaps);
                change((ObjectNode) touch, "sweep", swaps);
            }
        }
        return mirrored;
    }

    private static void change(ObjectNode object, String field, boolean swaps) {
        if (!object.has(field)) {
            return;
        }
        String text = object.get(field).asText();
        String turned = TILTED.matcher(text)
                .replaceAll(tilt -> "B to " + (tilt.group(1).isEmpty() ? "-" : "") + "90")
                .replaceAll("\\bA\\b", "B");
        object.put(field, swaps ? swapped(turned) : turned);
    }

    private static String swapped(String text) {
        return text.replaceAll("\\bX\\b", "\u0000").replaceAll("\\bY\\b", "X").replace('\u0000', 'Y');
    }
}
