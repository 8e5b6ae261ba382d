package sweepbook.cli.plan;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Finds a plan: one that comes with the program by its name, any other by its file. */
public final class Plans {
    /** The plans that come with the program. */
    public static final List<String> BUNDLED = Stream.concat(
                    Stream.of("joinery-head", "joinery-head-inch"), PlanParts.NAMES.stream())
            .toList();

    private Plans() {}

    /** The plan's JSON text, checked; a fault names the field with its line. */
    public static String text(String nameOrFile) throws IOException {
        String text = BUNDLED.contains(nameOrFile) ? bundled(nameOrFile) : file(nameOrFile);
        PlanFile.parse(nameOrFile, text);
        return text;
    }

    private static String bundled(String name) throws IOException {
        if (PlanParts.NAMES.contains(name)) {
            return PlanParts.plan(name);
        }
        try (InputStream in = Plans.class.getResourceAsStream(name + ".json")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static String file(String name) throws IOException {
        return TextFile.read(Path.of(name), "a plan file, or one of " + String.join(", ", BUNDLED));
    }
}
