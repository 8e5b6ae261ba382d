package sweepbook.cli.book;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.function.ThrowingConsumer;

/** Replays the kept inputs of every fuzz target; each has to end, and without a fault of ours. */
@Timeout(30)
class CorpusTest {
    @TestFactory
    Stream<DynamicTest> plans() throws Exception {
        return replay("Plans", FuzzTargets.Plans::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> books() throws Exception {
        return replay("Books", FuzzTargets.Books::fuzzerTestOneInput);
    }

    private static Stream<DynamicTest> replay(String target, ThrowingConsumer<byte[]> reader) throws Exception {
        Path corpus = Path.of(CorpusTest.class.getResource("/fuzz/" + target).toURI());
        try (Stream<Path> files = Files.list(corpus)) {
            List<Path> inputs = files.sorted().toList();
            assertTrue(inputs.size() > 1, "no corpus for " + target);
            return inputs.stream()
                    .map(input -> dynamicTest(
                            target + "/" + input.getFileName(), () -> reader.accept(Files.readAllBytes(input))));
        }
    }
}
