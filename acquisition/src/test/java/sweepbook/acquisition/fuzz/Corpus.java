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
import org.junit.jupiter.api.function.ThrowingConsumer;

/** The kept inputs of fuzz targets, each under the simple name of its target. */
public final class Corpus {
    private Corpus() {}

    /** A test for each input of the target, which is read by that. */
    public static Stream<DynamicTest> replay(Class<?> target, ThrowingConsumer<byte[]> reader)
            throws IOException, URISyntaxException {
        String name = target.getSimpleName();
        try (Stream<Path> files =
                Files.list(Path.of(target.getResource("/fuzz/" + name).toURI()))) {
            List<Path> inputs = files.sorted().toList();
            assertTrue(inputs.size() > 1, "no corpus for " + name);
            return inputs.stream()
                    .map(input -> dynamicTest(
                            name + "/" + input.getFileName(), () -> reader.accept(Files.readAllBytes(input))));
        }
    }
}
