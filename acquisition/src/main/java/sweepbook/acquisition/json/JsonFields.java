package sweepbook.acquisition.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/**
 * One object of a JSON file, read field by field; every fault names file, line and field. After the last field
 * {@link #nothingElse} finds the misspelt ones. Used by one thread.
 */
public final class JsonFields {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private final String source;
    private final Map<String, Integer> lines;
    private final String pointer;
    private final JsonNode node;
    private final Set<String> asked = new LinkedHashSet<>();

    private JsonFields(String source, Map<String, Integer> lines, String pointer, JsonNode node) {
        this.source = source;
        this.lines = lines;
        this.pointer = pointer;
        this.node = node;
    }

    /** The library tells programmers where it keeps the text. */
    private static String message(JsonProcessingException e) {
        return e.getOriginalMessage().replaceFirst("\\s*\\(start marker at .*\\)", "");
    }

    /** The object that the text holds; source is what messages call the file. */
    public static JsonFields parse(String source, String text) throws JsonFault {
        try {
            JsonNode root = MAPPER.readTree(text);
            if (root == null || !root.isObject()) {
                throw new JsonFault(source + ": holds no JSON object; it must begin with {");
            }
            return new JsonFields(source, linesOf(text), "", root);
        } catch (MismatchedInputException e) {
            throw new JsonFault(source + ", line " + line(e) + ": more stands behind the JSON object; keep one");
        } catch (JsonProcessingException e) {
            throw new JsonFault(source + ", line " + line(e) + ": not JSON: " + message(e));
        } catch (JsonFault e) {
            throw e;
        } catch (IOException e) {
            throw new JsonFault(source + ": " + e.getMessage());
        }
    }

    private static int line(JsonProcessingException e) {
        return e.getLocation() == null ? 1 : e.getLocation().getLineNr();
    }

    /** The line on which each value stands, by JSON pointer (RFC 6901). */
    private static Map<String, Integer> linesOf(String text) throws IOException {
        Map<String, Integer> lines = new HashMap<>();
        try (JsonParser parser = new JsonFactory().createParser(text)) {
            while (parser.nextToken() != null) {
                if (parser.currentToken() != JsonToken.FIELD_NAME) {
                    lines.putIfAbsent(
                            parser.getParsingContext().pathAsPointer().toString(),
                            parser.currentTokenLocation().getLineNr());
                }
            }
        }
        return lines;
    }

    /** A fault at the field, or at this object where it has no such field. */
    public JsonFault fault(String field, String what) {
        String at = pointer + "/" + field;
        Integer line = lines.getOrDefault(at, lines.get(pointer));
        return new JsonFault(source + (line == null ? "" : ", line " + line) + ": field "
                + at.substring(1).replace('/', '.') + ": " + what);
    }

    public boolean has(String field) {
        asked.add(field);
        return node.has(field);
    }

    public String text(String field) throws JsonFault {
        JsonNode value = required(field);
        if (!value.isTextual()) {
            throw fault(field, "must be text in quotes, not " + value);
        }
        return value.textValue();
    }

    public Optional<String> optionalText(String field) throws JsonFault {
        return has(field) ? Optional.of(text(field)) : Optional.empty();
    }

    /** A finite number from least to most. */
    public double number(String field, double least, double most) throws JsonFault {
        JsonNode value = required(field);
        if (!value.isNumber() || !(value.doubleValue() >= least && value.doubleValue() <= most)) {
            throw fault(field, "must be a number from " + least + " to " + most + ", not " + value);
        }
        return value.doubleValue();
    }

    /** A whole number from least to most. */
    public int integer(String field, int least, int most) throws JsonFault {
        JsonNode value = required(field);
        if (!value.canConvertToInt()
                || !value.isIntegralNumber()
                || value.intValue() < least
                || value.intValue() > most) {
            throw fault(field, "must be a whole number from " + least + " to " + most + ", not " + value);
        }
        return value.intValue();
    }

    public boolean flag(String field) throws JsonFault {
        JsonNode value = required(field);
        if (!value.isBoolean()) {
            throw fault(field, "must be true or false, not " + value);
        }
        return value.booleanValue();
    }

    /** The one of the choices whose word the text is. */
    public <T> T choice(String field, List<T> choices, Function<T, String> word) throws JsonFault {
        String text = text(field);
        List<String> words = new ArrayList<>();
        for (T choice : choices) {
            if (word.apply(choice).equals(text)) {
                return choice;
            }
            words.add(word.apply(choice));
        }
        throw fault(field, "'" + text + "' is not one of " + String.join(", ", words));
    }

    public JsonFields object(String field) throws JsonFault {
        JsonNode value = required(field);
        if (!value.isObject()) {
            throw fault(field, "must be an object in { }");
        }
        return new JsonFields(source, lines, pointer + "/" + field, value);
    }

    public Optional<JsonFields> optionalObject(String field) throws JsonFault {
        return has(field) ? Optional.of(object(field)) : Optional.empty();
    }

    /** The objects of a list. */
    public List<JsonFields> objects(String field) throws JsonFault {
        JsonNode value = required(field);
        if (!value.isArray()) {
            throw fault(field, "must be a list in [ ]");
        }
        List<JsonFields> objects = new ArrayList<>();
        for (int i = 0; i < value.size(); i++) {
            JsonFields item = new JsonFields(source, lines, pointer + "/" + field + "/" + i, value.get(i));
            if (!value.get(i).isObject()) {
                throw fault(field + "/" + i, "must be an object in { }");
            }
            objects.add(item);
        }
        return objects;
    }

    /** The names of all fields, where they are free to choose. */
    public List<String> names() {
        List<String> names = new ArrayList<>();
        node.fieldNames().forEachRemaining(names::add);
        return names;
    }

    /** Refuses fields that nobody asked for. */
    public void nothingElse() throws JsonFault {
        for (String name : names()) {
            if (!asked.contains(name)) {
                throw fault(name, "is not known here; known are " + String.join(", ", asked));
            }
        }
    }

    private JsonNode required(String field) throws JsonFault {
        if (!has(field)) {
            throw fault(field, "is missing");
        }
        return node.get(field);
    }
}
