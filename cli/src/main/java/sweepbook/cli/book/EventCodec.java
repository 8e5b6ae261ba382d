package sweepbook.cli.book;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;

/**
 * Events as lines of a journal: the kind is a word, the payload has the event's components under their own names.
 * Readings, those of an indicator beside too, stand as arrays side by side: {@code {"attempt":1,"time_s":[...],"reading_mm":[...],"marked":[...]}}, where
 * {@code marked} holds the places of those that carry a witness mark.
 */
final class EventCodec {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .build();

    private static final String RECEIVED = "received";
    private static final String BESIDE = "beside";
    private static final Map<String, Class<? extends BookEvent>> KINDS = new LinkedHashMap<>();

    static {
        KINDS.put("begun", BookEvent.Begun.class);
        KINDS.put("resumed", BookEvent.Resumed.class);
        KINDS.put("attempt", BookEvent.AttemptBegun.class);
        KINDS.put(RECEIVED, BookEvent.Received.class);
        KINDS.put(BESIDE, BookEvent.Beside.class);
        KINDS.put("incident", BookEvent.Incident.class);
        KINDS.put("typed", BookEvent.Typed.class);
        KINDS.put("kept", BookEvent.Kept.class);
        KINDS.put("set-aside", BookEvent.SetAside.class);
        KINDS.put("skipped", BookEvent.Skipped.class);
        KINDS.put("taken-up", BookEvent.TakenUp.class);
        KINDS.put("left", BookEvent.Left.class);
    }

    private EventCodec() {}

    static String kind(BookEvent event) {
        return KINDS.entrySet().stream()
                .filter(entry -> entry.getValue().equals(event.getClass()))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElseThrow();
    }

    static ObjectNode payload(BookEvent event) {
        ObjectNode node = MAPPER.createObjectNode();
        if (event instanceof BookEvent.Received received) {
            return put(node.put("attempt", received.attempt()), received.readings());
        }
        if (event instanceof BookEvent.Beside beside) {
            node.put("attempt", beside.attempt()).put("indicator", beside.indicator());
            node.put("unit", beside.unit().name()).put("resolution_mm", beside.resolution_mm());
            return put(node, beside.readings());
        }
        return MAPPER.valueToTree(event);
    }

    private static ObjectNode put(ObjectNode node, List<Reading> readings) {
        ArrayNode times = node.putArray("time_s");
        ArrayNode values = node.putArray("reading_mm");
        ArrayNode marked = MAPPER.createArrayNode();
        for (Reading reading : readings) {
            times.add(reading.time_s());
            values.add(reading.reading_mm());
            if (reading.mark()) {
                marked.add(times.size() - 1);
            }
        }
        if (!marked.isEmpty()) {
            node.set("marked", marked);
        }
        return node;
    }

    /** The event of a line; a kind or payload that is not one is a fault of the book. */
    static BookEvent event(String kind, ObjectNode payload) throws IOException {
        if (kind.equals(RECEIVED)) {
            return new BookEvent.Received(payload.path("attempt").asInt(), readings(payload));
        }
        if (kind.equals(BESIDE)) {
            return beside(payload);
        }
        Class<? extends BookEvent> type = KINDS.get(kind);
        if (type == null) {
            throw new IOException("a line of kind '" + kind + "' is not known to this version of sweepbook");
        }
        try {
            return MAPPER.treeToValue(payload, type);
        } catch (JsonProcessingException e) {
            throw new IOException("a line of kind '" + kind + "' cannot be read: " + e.getOriginalMessage(), e);
        }
    }

    private static BookEvent beside(ObjectNode payload) throws IOException {
        JsonNode resolution = payload.path("resolution_mm");
        return new BookEvent.Beside(
                payload.path("attempt").asInt(),
                payload.path("indicator").asText(),
                LengthUnit.valueOf(payload.path("unit").asText()),
                resolution.isNumber() ? resolution.doubleValue() : Double.NaN,
                readings(payload));
    }

    private static List<Reading> readings(ObjectNode payload) throws IOException {
        JsonNode times = payload.path("time_s");
        JsonNode values = payload.path("reading_mm");
        if (!times.isArray() || times.size() != values.size()) {
            throw new IOException("a line of readings has not as many times as values");
        }
        List<Integer> marked = new ArrayList<>();
        payload.path("marked").forEach(place -> marked.add(place.asInt()));
        List<Reading> readings = new ArrayList<>(times.size());
        for (int i = 0; i < times.size(); i++) {
            if (!times.get(i).isNumber() || !values.get(i).isNumber()) {
                throw new IOException("a line of readings holds something that is no number");
            }
            readings.add(new Reading(times.get(i).doubleValue(), values.get(i).doubleValue(), marked.contains(i)));
        }
        return readings;
    }
}
