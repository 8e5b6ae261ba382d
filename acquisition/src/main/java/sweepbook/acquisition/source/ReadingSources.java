package sweepbook.acquisition.source;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.wire.IndicatorProfile;

/** Opens a source of readings on any link. */
public final class ReadingSources {
    /** A lost link may stay away so long: to find the plug, push it in and let the port come up. */
    public static final Duration PATIENCE = Duration.ofSeconds(15);

    /** Comment lines of a trace, which come before its header, fit into this. */
    private static final int HEAD = 1 << 16;

    private ReadingSources() {}

    /**
     * Opens the link.
     *
     * @param profile what its bytes mean; only the replay of a trace goes without
     * @param clock of the readings' times; sources that share a clock share its times
     * @param patience how long a lost link may stay away before the source fails
     */
    public static ReadingSource open(
            LinkAddress address, Optional<IndicatorProfile> profile, Clock clock, Duration patience)
            throws IOException {
        if (address instanceof LinkAddress.Replay replay && (profile.isEmpty() || isTrace(replay.file()))) {
            return new CsvSource(address.toString(), replay.file());
        }
        if (profile.isEmpty()) {
            throw LinkException.notOpened(
                    address + " needs a profile that says what its bytes mean; name one with --profile");
        }
        return WireSource.open(address, profile.get(), clock, patience);
    }

    /** Whether the file is a trace and not a recording of bytes: only a trace's header names its times. */
    private static boolean isTrace(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return false;
        }
        try (var in = Files.newInputStream(file)) {
            return new String(in.readNBytes(HEAD), StandardCharsets.ISO_8859_1).contains("time_s");
        }
    }
}
