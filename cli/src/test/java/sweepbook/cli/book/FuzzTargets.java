package sweepbook.cli.book;

import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import sweepbook.acquisition.journal.JournalEntry;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;

/**
 * What reads plans and books, as targets of a coverage-guided fuzzer: it may refuse them with a message that names them,
 * and nothing else. {@link CorpusTest} replays what is kept in the test resources; to search for more, with target Plans
 * or Books:
 *
 * <pre>
 * mvn -q -Pfuzz-books -pl cli -am process-test-classes -Dtarget=Books -Dseconds=600
 * </pre>
 *
 * <p>What breaks a reader lies in the module's target folder afterwards as crash-...: mend the reader, and keep the input.
 */
public final class FuzzTargets {
    private static final JsonMapper JSON = new JsonMapper();

    private FuzzTargets() {}

    /** A plan is read, with all that it promises, or refused with its name. */
    public static final class Plans {
        private Plans() {}

        public static void fuzzerTestOneInput(byte[] text) {
            try {
                Plan plan = PlanFile.parse("fuzz.json", new String(text, StandardCharsets.UTF_8));
                assertTrue(!plan.offsets().isEmpty() && !Book.stations(plan).isEmpty());
            } catch (IOException e) {
                assertTrue(e.getMessage().startsWith("fuzz.json"), e.getMessage());
            }
        }
    }

    /**
     * A book is folded and its offsets are derived, or it is refused with its name. Each line is a kind, a blank and a
     * payload: the chain around them has a target of its own, and nothing that the fuzzer alters would get past it.
     */
    public static final class Books {
        private static final Path FILE = Path.of("fuzz.book");

        private Books() {}

        public static void fuzzerTestOneInput(byte[] text) {
            Book.Folding folding = new Book.Folding();
            long sequence = 1;
            try {
                for (String line :
                        new String(text, StandardCharsets.UTF_8).lines().toList()) {
                    int blank = line.indexOf(' ');
                    JsonNode payload = blank < 0 ? null : JSON.readTree(line.substring(blank + 1));
                    if (payload instanceof ObjectNode object) {
                        String kind = line.substring(0, blank);
                        BookFile.fold(
                                FILE, folding, new JournalEntry(++sequence, sequence, Instant.EPOCH, kind, object));
                    }
                }
                if (folding.isBegun()) {
                    Book book = folding.book();
                    book.next();
                    new Offsets(book).all();
                }
            } catch (JsonProcessingException noJson) {
                // The journal's reader refuses that before.
            } catch (IOException e) {
                assertTrue(e.getMessage().startsWith("fuzz.book, line "), e.getMessage());
            }
        }
    }
}
