package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.Profiles;

/** Kills a running recording without warning, and looks whether every reading that it had counted is in the file. */
@Timeout(3600)
class KilledTraceTest {
    /** Each sends and takes 2000 readings a second: a few keep a computer busy. */
    private static final int BESIDE = Math.min(4, Victims.KILLS);

    private static final int WITHIN_MS = 5_000;
    private static final Pattern COUNT = Pattern.compile("(\\d+) readings");

    @TempDir
    Path folder;

    private final AtomicLong counted = new AtomicLong();
    private final AtomicLong written = new AtomicLong();
    private final AtomicLong torn = new AtomicLong();

    @Test
    void aKilledTraceHoldsEveryReadingThatWasCounted() throws Exception {
        Victims.share(BESIDE, this::kill);
        System.out.println("trace: " + Victims.KILLS + " kills, " + counted + " readings acknowledged, 0 of them lost, "
                + written + " in the files; " + torn + " last rows torn; seed " + Victims.SEED);
        assertTrue(counted.get() > 0, "nothing was ever acknowledged");
    }

    private void kill(int kills, Random random) throws Exception {
        FrameEncoder encoder = new FrameEncoder(Profiles.bundled("text-timed-stream"));
        try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            Thread device = new Thread(() -> talk(server, encoder));
            device.setDaemon(true);
            device.start();
            Path csv = Files.createTempDirectory(folder, "killed").resolve("trace.csv");
            for (int i = 0; i < kills; i++) {
                Process process = Victims.start(
                        "trace",
                        "tcp:127.0.0.1:" + server.getLocalPort(),
                        "--profile",
                        "text-timed-stream",
                        "--out",
                        csv.toString());
                String said = killed(process, random.nextInt(WITHIN_MS));
                assertWhole(csv, said);
                Files.delete(csv);
            }
        }
    }

    /** Kills so long after the first count; all that was said. */
    private static String killed(Process process, int after_ms) throws Exception {
        StringBuilder said = new StringBuilder();
        InputStream out = process.getInputStream();
        byte[] piece = new byte[4096];
        long end_ns = Long.MAX_VALUE;
        for (int n = out.read(piece); n >= 0; n = out.read(piece)) {
            said.append(new String(piece, 0, n, StandardCharsets.UTF_8));
            if (end_ns == Long.MAX_VALUE && said.indexOf(" readings") >= 0) {
                end_ns = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(after_ms);
                Thread killer = new Thread(() -> {
                    try {
                        process.waitFor(after_ms, TimeUnit.MILLISECONDS);
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                    // By its handle: the other way would close the stream that still holds what it said.
                    process.toHandle().destroyForcibly();
                });
                killer.start();
            }
        }
        assertTrue(end_ns < Long.MAX_VALUE, said.toString());
        assertTrue(process.waitFor() > 128, "it ended by itself: " + said);
        return said.toString();
    }

    /** Row i holds reading i; at least as many whole rows as were counted on the status line. */
    private void assertWhole(Path csv, String said) throws IOException {
        Matcher counts = COUNT.matcher(said);
        long acknowledged = 0;
        while (counts.find()) {
            acknowledged = Long.parseLong(counts.group(1));
        }
        String text = Files.readString(csv);
        List<String> rows = text.substring(0, text.lastIndexOf('\n') + 1)
                .lines()
                .dropWhile(line -> line.startsWith("#"))
                .skip(1)
                .toList();
        for (int row = 0; row < rows.size(); row++) {
            Reading expected = reading(row);
            String[] fields = rows.get(row).split(",");
            assertEquals(expected.time_s(), Double.parseDouble(fields[0]));
            assertEquals(expected.reading_mm(), Double.parseDouble(fields[1]));
        }
        assertTrue(rows.size() >= acknowledged, rows.size() + " rows, but " + acknowledged + " acknowledged");
        counted.addAndGet(acknowledged);
        written.addAndGet(rows.size());
        torn.addAndGet(text.endsWith("\n") ? 0 : 1);
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
}
