package sweepbook.acquisition.source;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;

/** Two serial devices joined back to back by socat. */
final class PtyPair implements AutoCloseable {
    private final Process socat;
    private final Path ours;
    private final Path theirs;

    private PtyPair(Process socat, Path ours, Path theirs) {
        this.socat = socat;
        this.ours = ours;
        this.theirs = theirs;
    }

    static PtyPair open(Path folder) throws IOException, InterruptedException {
        Path ours = folder.resolve("indicator");
        Path theirs = folder.resolve("device");
        Process socat;
        try {
            socat = new ProcessBuilder("socat", "pty,raw,echo=0,link=" + ours, "pty,raw,echo=0,link=" + theirs)
                    .redirectErrorStream(true)
                    .start();
        } catch (IOException e) {
            Assumptions.abort("socat is not installed: " + e.getMessage());
            throw e;
        }
        // socat makes the names when the devices are ready and says nothing.
        while (!Files.exists(ours) || !Files.exists(theirs)) {
            if (socat.waitFor(5, TimeUnit.MILLISECONDS)) {
                throw new IOException(
                        "socat ended: " + new String(socat.getInputStream().readAllBytes()));
            }
        }
        return new PtyPair(socat, ours, theirs);
    }

    /** The side that the program opens. */
    Path ours() {
        return ours;
    }

    /** The side on which the indicator is played. */
    Path theirs() {
        return theirs;
    }

    /** Plays the unplug: both devices are gone. */
    @Override
    public void close() {
        socat.destroy();
        try {
            socat.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
