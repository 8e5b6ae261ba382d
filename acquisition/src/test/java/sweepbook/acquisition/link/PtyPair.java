package sweepbook.acquisition.link;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/** Two serial devices joined back to back by socat. */
public final class PtyPair implements AutoCloseable {
    private final Process socat;
    private final Path ours;
    private final Path theirs;

    private PtyPair(Process socat, Path ours, Path theirs) {
        this.socat = socat;
        this.ours = ours;
        this.theirs = theirs;
    }

    /** In an existing folder; skips the test where there is no socat. */
    public static PtyPair open(Path folder) throws IOException {
        Path ours = folder.resolve("indicator");
        Path theirs = folder.resolve("device");
        Process socat;
        try {
            socat = new ProcessBuilder(
                            "socat", "-d", "-d", "pty,raw,echo=0,link=" + ours, "pty,raw,echo=0,link=" + theirs)
                    .redirectErrorStream(true)
                    .start();
        } catch (IOException e) {
            Assumptions.abort("socat is not installed: " + e.getMessage());
            throw e;
        }
        // The names are there before the devices are set to raw; this line comes after both.
        BufferedReader said = socat.inputReader();
        String line = said.readLine();
        while (line != null && !line.contains("starting data transfer loop")) {
            line = said.readLine();
        }
        if (line == null) {
            throw new IOException("socat ended without joining the devices");
        }
        return new PtyPair(socat, ours, theirs);
    }

    /** The side that the program opens. */
    public Path ours() {
        return ours;
    }

    /** The side on which the indicator is played. */
    public Path theirs() {
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
