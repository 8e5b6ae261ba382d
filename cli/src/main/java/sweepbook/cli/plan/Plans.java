package sweepbook.cli.plan;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
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
        Path file = Path.of(name);
        if (Files.isDirectory(file)) {
            throw new IOException(file + ": is a directory; name a plan file");
        }
        try {
            return Files.readString(file);
        } catch (NoSuchFileException e) {
            throw new IOException(name + ": no such plan: name a file, or one of " + String.join(", ", BUNDLED), e);
        } catch (CharacterCodingException e) {
            throw new IOException(name + ": is not UTF-8 text; save it as UTF-8", e);
        }
    }
}
