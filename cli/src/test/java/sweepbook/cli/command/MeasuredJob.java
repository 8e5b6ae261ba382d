package sweepbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;
import sweepbook.simulator.serve.IndicatorServer;
import sweepbook.simulator.serve.Pace;

/** A job on a virtual machine that real processes measure, one after the other, into one book. Used by one thread. */
final class MeasuredJob {
    private static final Pattern TOUCH = Pattern.compile("== .* \\(([a-z-]+)\\), touch (\\d+) of \\d+");
    private static final Pattern KEPT = Pattern.compile("   kept at \\w+ = (\\S+) .*");
    private static final String PROFILE = "text-timed-stream";

    /** The readings carry their time: a technician that is so much faster saves waiting, and changes nothing else. */
    static final Pace PACE = new Pace(10);

    private final Path book;
    private final long seed;
    private final StringBuilder said = new StringBuilder();
    private final List<String> acknowledged = new ArrayList<>();
    private double interval_s;
    private boolean begun;

    MeasuredJob(Path book, long seed) {
        this.book = book;
        this.seed = seed;
    }

    /** Everything that was said so far. */
    String said() {
        return said.toString();
    }

    /** Touches said to be kept, as offset/touch and position. */
    List<String> acknowledged() {
        return acknowledged;
    }

    /** From reading to reading. */
    double interval_s() {
        return interval_s;
    }

    /** Measures on, and kills the process so long after its first word; true where it came to its end before that. */
    boolean session(int killedAfter_ms) throws Exception {
        VirtualJob job = JoineryScenario.of(seed);
        interval_s = job.indicatorSettings().interval_s();
        ExecutorService hands = Executors.newFixedThreadPool(2);
        try (IndicatorServer server = IndicatorServer.onLoopback(job, Profiles.bundled(PROFILE), PACE, 0)) {
            Process process = Victims.start(
                    "measure",
                    RecordedJob.PLAN,
                    "tcp:127.0.0.1:" + server.port(),
                    "--profile",
                    PROFILE,
                    "--book",
                    book.toString());
            boolean killed = watched(process, server, hands, killedAfter_ms);
            int status = process.waitFor();
            if (!killed && status != 0) {
                throw new AssertionError("ended with status " + status + ": " + said);
            }
            return !killed;
        } finally {
            hands.shutdownNow();
        }
    }

    private boolean watched(Process process, IndicatorServer server, ExecutorService hands, int killedAfter_ms)
            throws Exception {
        String offset = "";
        int touch = 0;
        boolean goesOn = false;
        boolean first = true;
        try (BufferedReader lines =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                said.append(line).append('\n');
                if (first) {
                    hands.submit(() -> kill(process, killedAfter_ms));
                    first = false;
                }
                goesOn |= line.startsWith("Going on with ");
                Matcher begins = TOUCH.matcher(line);
                Matcher kept = KEPT.matcher(line);
                if (begins.matches()) {
                    offset = begins.group(1);
                    touch = Integer.parseInt(begins.group(2)) - 1;
                } else if (line.startsWith("   Enter when")) {
                    String its = offset;
                    int number = touch;
                    hands.submit(() -> make(process.getOutputStream(), server, its, number));
                } else if (kept.matches()) {
                    acknowledged.add(offset + "/" + touch + " " + kept.group(1));
                } else if (line.startsWith("  ? ")) {
                    throw new AssertionError("the position was not taken: " + said);
                }
            }
        }
        if (first || begun && !goesOn) {
            throw new AssertionError("it did not go on with the book: " + said);
        }
        begun = true;
        return process.waitFor() > 128;
    }

    private static Void kill(Process process, int after_ms) throws InterruptedException {
        process.waitFor(after_ms, TimeUnit.MILLISECONDS);
        // By its handle: the other way would close the stream that still holds what it said.
        process.toHandle().destroyForcibly();
        return null;
    }

    /** Enter, the touch, then what the controller showed. */
    private static Void make(OutputStream keys, IndicatorServer server, String offset, int touch)
            throws IOException, InterruptedException {
        type(keys, "");
        VirtualTouch made = server.touch(offset, touch);
        for (String position : RecordedJob.typed(made)) {
            type(keys, position);
        }
        return null;
    }

    private static void type(OutputStream keys, String line) throws IOException {
        keys.write((line + "\n").getBytes(StandardCharsets.UTF_8));
        keys.flush();
    }
}
