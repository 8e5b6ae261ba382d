package sweepbook.acquisition.input;

import com.fasterxml.jackson.core.JacksonException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.BeanDescription;
import com.fasterxml.jackson.databind.DeserializationConfig;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JavaType;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.deser.BeanDeserializerModifier;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.databind.exc.ValueInstantiationException;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * A JSON text that knows on which line each of its fields stands, so that every fault names file, line and field.
 *
 * <p>It is read into records: a field that the record does not have is a fault, a field that the text lacks is one
 * unless its type is {@code Optional}, enum constants are written in lower case with hyphens, and an
 * IllegalArgumentException of a record's constructor is told at the record's place.
 */
public final class JsonDocument {
    /** A person's plan or profile has some hundred lines; a megabyte is a wrong file, not a long one. */
    private static final long GREATEST_BYTES = 1 << 20;

    private static final ObjectMapper MAPPER = JsonMapper.builder()
            .addModule(new Jdk8Module())
            .addModule(new SimpleModule().setDeserializerModifier(new EnumsInLowerCase()))
            .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
            .build();

    private final String name;
    private final JsonNode tree;
    private final Map<String, Integer> lines;

    private JsonDocument(String name, JsonNode tree, Map<String, Integer> lines) {
        this.name = name;
        this.tree = tree;
        this.lines = lines;
    }

    public static JsonDocument read(Path file) throws InputException {
        try {
            if (Files.isDirectory(file)) {
                throw new InputException(file + ": is a directory; name a JSON file in it");
            }
            if (Files.size(file) > GREATEST_BYTES) {
                throw new InputException(file + ": has over " + GREATEST_BYTES + " bytes; is it the right file?");
            }
            return parse(file.toString(), Files.readString(file));
        } catch (NoSuchFileException e) {
            throw new InputException(file + ": no such file; check the name", e);
        } catch (InputException e) {
            throw e;
        } catch (IOException e) {
            throw new InputException(file + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    /** The name stands for the text in messages. */
    public static JsonDocument parse(String name, String text) throws InputException {
        try {
            return new JsonDocument(name, MAPPER.readTree(text), linesOf(text));
        } catch (JacksonException e) {
            throw new InputException(
                    name + ":" + e.getLocation().getLineNr() + ": is not valid JSON: " + e.getOriginalMessage(), e);
        }
    }

    /** A document already held as a tree, for instance in a book; it has no lines of its own. */
    public static JsonDocument of(String name, JsonNode tree) {
        return new JsonDocument(name, tree, Map.of());
    }

    private static Map<String, Integer> linesOf(String text) throws JacksonException {
        Map<String, Integer> lines = new HashMap<>();
        try (JsonParser parser = MAPPER.createParser(text)) {
            while (parser.nextToken() != null) {
                lines.putIfAbsent(
                        parser.getParsingContext().pathAsPointer().toString(),
                        parser.currentTokenLocation().getLineNr());
            }
        } catch (JacksonException e) {
            throw e;
        } catch (IOException e) {
            throw new AssertionError("a string is read without input or output", e);
        }
        return lines;
    }

    public JsonNode tree() {
        return tree;
    }

    /** The document as a record. */
    public <T> T as(Class<T> type) throws InputException {
        try {
            return MAPPER.treeToValue(tree, type);
        } catch (JsonMappingException e) {
            throw fault(pointer(e), what(e));
        } catch (JacksonException e) {
            throw new InputException(name + ": " + e.getOriginalMessage(), e);
        }
    }

    /** A fault at a place, to be thrown: file, line, field, what is wrong. */
    public InputException fault(String pointer, String what) {
        Integer line = null;
        for (JsonPointer p = JsonPointer.compile(pointer); line == null && p != null; p = p.head()) {
            line = lines.get(p.toString());
        }
        String field = pointer.isEmpty() ? "" : pointer.substring(1).replace('/', '.') + ": ";
        return new InputException(name + (line == null ? "" : ":" + line) + ": " + field + what);
    }

    private static String pointer(JsonMappingException e) {
        return e.getPath().stream()
                .map(step -> step.getFieldName() == null ? "/" + step.getIndex() : "/" + step.getFieldName())
                .collect(Collectors.joining());
    }

    private String what(JsonMappingException e) {
        if (e instanceof UnrecognizedPropertyException unknown) {
            return "is not a field here; the fields are "
                    + unknown.getKnownPropertyIds().stream()
                            .map(String::valueOf)
                            .collect(Collectors.toCollection(TreeSet::new));
        }
        if (tree.at(pointer(e)).isMissingNode()) {
            return "is missing";
        }
        if (e instanceof ValueInstantiationException && e.getCause() instanceof IllegalArgumentException cause) {
            return cause.getMessage();
        }
        return "is " + abridged(tree.at(pointer(e)).toString()) + ": " + e.getOriginalMessage();
    }

    private static String abridged(String text) {
        return text.length() <= 40 ? text : text.substring(0, 37) + "...";
    }

    /** {@code ON_TABLE} is written {@code on-table}. */
    private static final class EnumsInLowerCase extends BeanDeserializerModifier {
        private static final long serialVersionUID = 1;

        @Override
        public JsonDeserializer<?> modifyEnumDeserializer(
                DeserializationConfig config, JavaType type, BeanDescription bean, JsonDeserializer<?> deserializer) {
            Object[] constants = type.getRawClass().getEnumConstants();
            return new JsonDeserializer<Object>() {
                @Override
                public Object deserialize(JsonParser parser, DeserializationContext context) throws IOException {
                    String word = parser.getValueAsString();
                    for (Object constant : constants) {
                        if (word(constant).equals(word)) {
                            return constant;
                        }
                    }
                    throw JsonMappingException.from(
                            parser,
                            "write one of "
                                    + Arrays.stream(constants)
                                            .map(EnumsInLowerCase::word)
                                            .collect(Collectors.joining(", ")));
                }
            };
        }

        private static String word(Object constant) {
            return ((Enum<?>) constant).name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }
}
