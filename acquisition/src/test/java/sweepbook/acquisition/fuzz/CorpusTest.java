package sweepbook.acquisition.fuzz;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.net.URISyntaxException;
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
    Stream<DynamicTest> traces() throws Exception {
        return replay("Traces", FuzzTargets.Traces::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> wire() throws Exception {
        return replay("Wire", FuzzTargets.Wire::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> profile() throws Exception {
        return replay("Profile", FuzzTargets.Profile::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> journals() throws Exception {
        return replay("Journals", FuzzTargets.Journals::fuzzerTestOneInput);
    }

    private static Stream<DynamicTest> replay(String target, ThrowingConsumer<byte[]> reader)
            throws IOException, URISyntaxException {
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
