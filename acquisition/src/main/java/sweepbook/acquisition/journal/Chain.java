package sweepbook.acquisition.journal;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * The lines of a journal, each bound to the one before.
 *
 * <pre>
 * {"seq":7,"mono_s":12.5,"wall":"2026-03-01T09:30:00Z","kind":"position","data":{...},"hash":"64 hex digits"}\n
 * |<------------------------------ content ------------------------------->|
 * hash = SHA-256(hash of the line before, as 64 hex digits, then the content), 64 zeros before the first line
 * </pre>
 *
 * <p>The hash covers the bytes as they stand, not their meaning, so that checking needs no rule for how JSON is
 * written. The first line is of kind {@code journal} and its data says {@code "version":1}.
 */
final class Chain {
    static final int VERSION = 1;
    static final String FIRST_KIND = "journal";
    static final String NO_HASH = "0".repeat(64);

    private static final String HASH_FIELD = ",\"hash\":\"";
    private static final String END = "\"}";
    private static final int TAIL = HASH_FIELD.length() + 64 + END.length();

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private long sequence;
    private String hash = NO_HASH;

    /** How many lines the chain has. */
    long sequence() {
        return sequence;
    }

    /** The hash of the last line; it stands for the whole chain. */
    String hash() {
        return hash;
    }

    /** Whether the last line is the one of the tip. */
    boolean isAt(Tip tip) {
        return tip.sequence() == sequence && tip.hash().equals(hash);
    }

    /** Adds a line and gives its bytes, line feed included. */
    byte[] add(double monotonic_s, Instant wall, String kind, ObjectNode payload) {
        ObjectNode line = MAPPER.createObjectNode();
        line.put("seq", sequence + 1);
        line.put("mono_s", monotonic_s);
        line.put("wall", wall.toString());
        line.put("kind", kind);
        line.set("data", payload);
        String text;
        try {
            text = MAPPER.writeValueAsString(line);
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException("a payload that is no JSON", e);
        }
        String content = text.substring(0, text.length() - 1);
        hash = hash(content.getBytes(StandardCharsets.UTF_8));
        sequence++;
        return (content + HASH_FIELD + hash + END + "\n").getBytes(StandardCharsets.UTF_8);
    }

    /** Checks the line against the chain and adds it; the line comes without its line feed. */
    JournalEntry follow(byte[] line) throws BrokenLine {
        int end = line.length - TAIL;
        if (end < 0) {
            throw new BrokenLine("is too short to be a line of a journal");
        }
        String tail = new String(line, end, TAIL, StandardCharsets.ISO_8859_1);
        if (!tail.startsWith(HASH_FIELD) || !tail.endsWith(END)) {
            throw new BrokenLine("does not end with its hash");
        }
        byte[] content = Arrays.copyOf(line, end);
        String expected = hash(content);
        if (!tail.substring(HASH_FIELD.length(), TAIL - END.length()).equals(expected)) {
            throw new BrokenLine("does not follow from the line before: this line was altered, or lines were removed,"
                    + " added or swapped just before it");
        }
        JournalEntry entry = entry(line);
        if (entry.sequence() != sequence + 1) {
            throw new BrokenLine("has number " + entry.sequence() + " where " + (sequence + 1) + " is due");
        }
        if (sequence == 0) {
            checkFirst(entry);
        }
        hash = expected;
        sequence++;
        return entry;
    }

    private static JournalEntry entry(byte[] line) throws BrokenLine {
        try {
            JsonNode node = MAPPER.readTree(new String(line, StandardCharsets.UTF_8));
            if (!(node.get("data") instanceof ObjectNode payload)
                    || !node.path("seq").isIntegralNumber()
                    || !node.path("mono_s").isNumber()
                    || !node.path("kind").isTextual()) {
                throw new BrokenLine("lacks one of seq, mono_s, wall, kind, data");
            }
            return new JournalEntry(
                    node.get("seq").longValue(),
                    node.get("mono_s").doubleValue(),
                    Instant.parse(node.path("wall").asText()),
                    node.get("kind").textValue(),
                    payload);
        } catch (JsonProcessingException | DateTimeException e) {
            throw new BrokenLine("is no line of a journal");
        }
    }

    private static void checkFirst(JournalEntry entry) throws BrokenLine {
        if (!entry.kind().equals(FIRST_KIND)) {
            throw new BrokenLine("is not the first line of a journal");
        }
        int version = entry.payload().path("version").asInt(0);
        if (version != VERSION) {
            throw new BrokenLine("says version " + version + " of the journal; this program reads version " + VERSION);
        }
    }

    private String hash(byte[] content) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(hash.getBytes(StandardCharsets.US_ASCII));
            return HexFormat.of().formatHex(digest.digest(content));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    /** A line that breaks the chain; the message continues "line N ...". */
    static final class BrokenLine extends Exception {
        BrokenLine(String what) {
            super(what);
        }
    }
}
