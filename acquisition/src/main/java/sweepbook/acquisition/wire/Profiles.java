package sweepbook.acquisition.wire;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import sweepbook.acquisition.json.JsonFault;

/** Finds a profile: one that comes with the program by its name, any other by its file. */
public final class Profiles {
    /** The profiles that come with the program. */
    public static final List<String> BUNDLED = List.of(
            "digits-framed-stream",
            "digits-sum-request",
            "packed-crc-stream",
            "text-channels-stream",
            "text-check-button",
            "text-mm-stream",
            "text-timed-stream",
            "text-units-request");

    private Profiles() {}

    /** Throws a JsonFault, or the file's own exception where it cannot be read. */
    public static IndicatorProfile load(String nameOrFile) throws IOException {
        if (BUNDLED.contains(nameOrFile)) {
            return bundled(nameOrFile);
        }
        Path file = Path.of(nameOrFile);
        if (Files.isDirectory(file)) {
            throw new JsonFault(file + ": is a directory; name a profile file");
        }
        try {
            return ProfileReader.read(nameOrFile, Files.readString(file));
        } catch (NoSuchFileException e) {
            throw new JsonFault(nameOrFile + ": no such profile: name a file, or one of " + String.join(", ", BUNDLED));
        } catch (CharacterCodingException e) {
            throw new JsonFault(nameOrFile + ": is not UTF-8 text; save it as UTF-8");
        }
    }

    /** A profile that comes with the program. */
    public static IndicatorProfile bundled(String name) {
        try {
            return ProfileReader.read(name, json(name));
        } catch (JsonFault e) {
            throw new IllegalStateException("the bundled profile '" + name + "' is faulty", e);
        }
    }

    /** The file of a profile that comes with the program. */
    public static String json(String name) {
        try (InputStream in = Profiles.class.getResourceAsStream(name + ".json")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException("the bundled profile '" + name + "' cannot be read", e);
        }
    }

    /** A profile from its JSON text; source is what messages call it. */
    public static IndicatorProfile parse(String source, String json) throws JsonFault {
        return ProfileReader.read(source, json);
    }
}
