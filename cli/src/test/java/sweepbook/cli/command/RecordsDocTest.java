package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.JoineryBook;

/** What docs/records.md promises to other programs is what they get. */
class RecordsDocTest extends RunsCommands {
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    Path folder;

    private Path book;
    private String doc;

    @BeforeEach
    void writeABook() throws IOException {
        book = folder.resolve("joinery.book");
        JoineryBook.write(book, 5, Instant.parse("2026-03-02T07:40:00Z"));
        doc = Files.readString(Path.of("docs/records.md"));
    }

    @Test
    void everyFieldThatACommandPrintsIsExplained() throws IOException {
        Path sweep = folder.resolve("sweep.csv");
        Path part = folder.resolve("part.csv");
        Path study = Files.writeString(
                folder.resolve("study.csv"),
                "piece,person,value\n1,A,1\n1,A,2\n1,B,1\n1,B,1\n2,A,5\n2,A,5\n2,B,5\n2,B,6\n");
        run("example", "--sweep", "clean", "--out", sweep);
        run("example", "--part", "even-one-mark", "--out", part);
        for (List<Object> command : List.of(
                List.<Object>of("highspot", "--json", sweep),
                List.<Object>of("runout", "--json", "--fim-limit", "1", part),
                List.<Object>of("offsets", "--json", book),
                List.<Object>of("study", "--json", study))) {
            out.getBuffer().setLength(0);
            run((String) command.get(0), command.subList(1, command.size()).toArray());
            Set<String> fields = new TreeSet<>();
            for (String line : out.toString().lines().toList()) {
                fields(JSON.readTree(line), fields);
            }
            assertTrue(fields.size() > 5, command + ": " + out);
            fields.forEach(field -> assertTrue(isExplained(field), command + " prints " + field));
        }
    }

    /** A name with U95 or StdU behind it is explained with the name; a circle's letters are those of the option. */
    private boolean isExplained(String field) {
        String name = field.replaceFirst("(U95|StdU)(?=_deg$|$)", "");
        return doc.contains("`" + field + "`")
                || doc.contains("`" + name + "`")
                || Set.of("LSCI", "MZCI", "MCCI", "MICI").contains(name);
    }

    private static void fields(JsonNode node, Set<String> into) {
        node.fieldNames().forEachRemaining(into::add);
        node.forEach(below -> fields(below, into));
    }

    @Test
    void everyKindOfLineAndEveryFateIsExplained() throws IOException {
        for (String line : Files.readAllLines(book)) {
            JsonNode node = JSON.readTree(line);
            assertTrue(doc.contains("`" + node.get("kind").asText() + "`"), line);
            node.get("data").fieldNames().forEachRemaining(field -> assertTrue(doc.contains("`" + field + "`"), field));
        }
        Arrays.stream(BookEvent.Fate.values()).forEach(fate -> assertTrue(doc.contains("`" + fate), fate.name()));
        Arrays.stream(BookEvent.Moment.values())
                .forEach(moment -> assertTrue(doc.contains("`" + moment), moment.name()));
    }

    /** The rule of the document, followed without the code that writes books. */
    @Test
    void whoeverFollowsTheRuleFindsTheHashOfTheBook() throws Exception {
        String last = "0".repeat(64);
        for (String line : Files.readAllLines(book)) {
            int comma = line.lastIndexOf(",\"hash\":");
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(last.getBytes(StandardCharsets.US_ASCII));
            digest.update(line.substring(0, comma).getBytes(StandardCharsets.UTF_8));
            last = HexFormat.of().formatHex(digest.digest());
            assertEquals(last, JSON.readTree(line).get("hash").asText());
        }
        assertEquals(ExitStatus.DONE, run("check", book));
        assertTrue(out.toString().contains(last), out.toString());
    }
}
