package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.journal.Journal;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.journal.JournalEntry;
import sweepbook.acquisition.journal.JournalReader;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

/**
 * Kills the running program without warning at random instants and looks whether what it had acknowledged is there. A few
 * kills by default; {@code mvn verify -pl cli -am -Dtest=KillTest -Dkills=300 -Dsurefire.failIfNoSpecifiedTests=false}
 * for many.
 */
@Timeout(3600)
class KillTest {
    private static final int KILLS = Integer.getInteger("kills", 3);
    private static final long BOUND_S = Integer.getInteger("kill.seconds", 1200);
    private static final Pattern COUNT = Pattern.compile("(\\d+) readings");

    @TempDir
    Path folder;

    private final long seed = Long.getLong("kill.seed", new Random().nextLong());
    private final Random random = new Random(seed);

    private Process start(Path err, String... args) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                ProcessHandle.current().info().command().orElseThrow(),
                "-XX:TieredStopAtLevel=1",
                "-Xshare:auto",
                "-cp",
                System.getProperty("java.class.path"),
                Sweepbook.class.getName()));
        command.addAll(List.of(args));
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(err.toFile())
                .start();
    }

    /** Waits for the first sign of life, then a random while, then kills; false where the program ended by itself. */
    private boolean killed(Process process, Path err, String sign, int within_ms) throws Exception {
        while (process.isAlive() && !Files.readString(err).contains(sign)) {
            process.waitFor(5, TimeUnit.MILLISECONDS);
        }
        boolean ended = process.waitFor(random.nextInt(within_ms), TimeUnit.MILLISECONDS);
        process.destroyForcibly();
        process.waitFor();
        return !ended;
    }

    @Test
    void aKilledTraceHoldsEveryReadingThatWasCounted() throws Exception {
        FrameEncoder encoder = new FrameEncoder(Profiles.bundled("text-timed-stream"));
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(BOUND_S);
        int kills = 0;
        long counted = 0;
        long torn = 0;
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Thread device = new Thread(() -> talk(server, encoder));
            device.setDaemon(true);
            device.start();
            while (kills < KILLS && System.nanoTime() < end) {
                Path csv = folder.resolve("kill-" + kills + ".csv");
                Path err = folder.resolve("kill-" + kills + ".err");
                Process process = start(
                        err,
                        "trace",
                        "tcp:127.0.0.1:" + server.getLocalPort(),
                        "--profile",
                        "text-timed-stream",
                        "--out",
                        csv.toString());
                assertTrue(killed(process, err, " readings", 2500), Files.readString(err));
                counted += assertWhole(csv, Files.readString(err));
                torn += Files.readString(csv).endsWith("\n") ? 0 : 1;
                kills++;
                Files.delete(csv);
            }
        }
        System.out.println("trace: " + kills + " kills, " + counted + " readings acknowledged, 0 lost, " + torn
                + " last rows torn, seed " + seed);
        assertTrue(counted > 0, "nothing was ever acknowledged");
    }

    /** Row i holds reading i; at least as many whole rows as were counted on the status line. */
    private long assertWhole(Path csv, String said) throws IOException {
        Matcher counts = COUNT.matcher(said);
        long acknowledged = 0;
        while (counts.find()) {
            acknowledged = Long.parseLong(counts.group(1));
        }
        String text = Files.readString(csv);
        List<String> lines =
                text.substring(0, text.lastIndexOf('\n') + 1).lines().toList();
        int row = 0;
        boolean head = true;
        for (String line : lines) {
            if (head) {
                head = line.startsWith("#");
                continue;
            }
            Reading expected = reading(row++);
            String[] fields = line.split(",");
            assertEquals(expected.time_s(), Double.parseDouble(fields[0]), "seed " + seed);
            assertEquals(expected.reading_mm(), Double.parseDouble(fields[1]), "seed " + seed);
        }
        assertTrue(row >= acknowledged, row + " rows, but " + acknowledged + " acknowledged; seed " + seed);
        return acknowledged;
    }

    private static Reading reading(int i) {
        return new Reading(i / 2000.0, i % 20_000 / 1000.0);
    }

    /** An indicator that sends 2000 readings a second to whoever connects. */
    private static void talk(ServerSocket server, FrameEncoder encoder) {
        while (!server.isClosed()) {
            try (Socket client = server.accept();
                    OutputStream out = new BufferedOutputStream(client.getOutputStream())) {
                long start = System.nanoTime();
                for (int i = 0; ; i++) {
                    out.write(encoder.encode(reading(i)));
                    if (i % 20 == 19) {
                        out.flush();
                        long ahead = start + i * 500_000L - System.nanoTime();
                        TimeUnit.NANOSECONDS.sleep(Math.max(0, ahead));
                    }
                }
            } catch (IOException killed) {
                // The next one may connect.
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    @Test
    void aKilledMeasurementKeepsItsBookAndGoesOn() throws Exception {
        long jobSeed = 4;
        Path trace = recorded(jobSeed);
        Path positions = Files.write(folder.resolve("positions"), positions(jobSeed));
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(BOUND_S);
        int kills = 0;
        int ended = 0;
        long acknowledged = 0;
        long entries = 0;
        long torn = 0;
        while (kills < KILLS && System.nanoTime() < end) {
            Path book = folder.resolve("kill-" + kills + ".book");
            Path err = folder.resolve("kill-" + kills + ".said");
            Process process = start(
                    err,
                    "measure",
                    "joinery-head",
                    "replay:" + trace,
                    "--book",
                    book.toString(),
                    "--positions",
                    positions.toString());
            ended += killed(process, err, "== ", 4000) ? 0 : 1;
            long said = Files.readString(err)
                    .lines()
                    .filter(line -> line.equals("   kept."))
                    .count();
            JournalCheck check = JournalCheck.of(book);
            torn += check.tornBytes() > 0 ? 1 : 0;
            List<JournalEntry> whole = JournalReader.readAll(book);
            long kept =
                    whole.stream().filter(entry -> entry.kind().equals("kept")).count();
            assertTrue(kept >= said, kept + " touches in the book, " + said + " acknowledged; seed " + seed);
            try (Journal journal = Journal.open(book, Clock.system())) {
                journal.append("left", JsonNodeFactory.instance.objectNode());
            }
            assertEquals(0, JournalCheck.of(book).tornBytes());
            assertFalse(JournalReader.readAll(book).size() < whole.size());
            acknowledged += said;
            entries += whole.size();
            kills++;
        }
        System.out.println("measure: " + kills + " kills (" + ended + " came too late), " + entries + " lines and "
                + acknowledged + " touches acknowledged, 0 lost, " + torn + " last lines torn, seed " + seed);
    }

    private Path recorded(long jobSeed) throws IOException {
        VirtualJob job = JoineryScenario.of(jobSeed);
        Trace.Builder whole = new Trace.Builder(LengthUnit.MM, 0.001);
        for (var offset : job.offsets()) {
            for (int touch = 0; touch < offset.touches().size(); touch++) {
                Trace trace = job.touch(offset.name(), touch).trace();
                for (int i = 0; i < trace.size(); i++) {
                    whole.add(trace.reading(i));
                }
            }
        }
        Path file = folder.resolve("job.csv");
        TraceCsvWriter.write(file, whole.build());
        return file;
    }

    private static List<String> positions(long jobSeed) throws IOException {
        List<String> lines = new ArrayList<>();
        VirtualJob job = JoineryScenario.of(jobSeed);
        String plan = "joinery-head";
        for (PlannedOffset offset : PlanFile.parse(plan, Plans.text(plan)).offsets()) {
            for (int touch = 0; touch < offset.touches().size(); touch++) {
                VirtualTouch made = job.touch(offset.name(), touch);
                if (offset.positions() == PlannedOffset.Positions.ON_CREST_AND_AT_THE_END) {
                    lines.add(made.onCrest());
                }
                lines.add(made.atTheEnd());
            }
        }
        return lines;
    }
}
