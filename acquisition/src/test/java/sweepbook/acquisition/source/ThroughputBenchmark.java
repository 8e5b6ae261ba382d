package sweepbook.acquisition.source;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.PtyPair;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.Profiles;

/**
 * What a source takes and how late it is. Another process sends numbered readings whose time stamp is when they were
 * sent; here they are counted, and compared with the clock when they come out. Needs Linux, where both processes share
 * the monotonic clock, and socat.
 *
 * <pre>
 * mvn -q -pl acquisition test-compile exec:java -Dexec.classpathScope=test \
 *     -Dexec.mainClass=sweepbook.acquisition.source.ThroughputBenchmark -Dexec.args="1000000"
 * </pre>
 *
 * <p>Arguments: readings as fast as it goes (default 1000000), readings at 2000 a second (default 60000), and tcp or
 * serial for one of the two links alone. A count of 0 leaves a run out.
 */
public final class ThroughputBenchmark {
    private static final int STEPS = 20_000;

    private ThroughputBenchmark() {}

    public static void main(String[] args) throws Exception {
        if (args.length == 4 && args[0].equals("send")) {
            send(args[1], Integer.parseInt(args[2]), Integer.parseInt(args[3]));
            return;
        }
        int fast = args.length > 0 ? Integer.parseInt(args[0]) : 1_000_000;
        int steady = args.length > 1 ? Integer.parseInt(args[1]) : 60_000;
        System.out.printf(
                "%-5s %9s %10s %6s %8s %6s %12s %9s %6s %9s %9s%n",
                "link",
                "readings",
                "per s",
                "lost",
                "doubled",
                "order",
                "latency p50",
                "p99 ms",
                "CPU %",
                "heap MB",
                "grown MB");
        String link = args.length > 2 ? args[2] : "";
        for (int perSecond : new int[] {0, 2000}) {
            int count = perSecond == 0 ? fast : steady;
            if (count > 0 && !link.equals("serial")) {
                int port = freePort();
                run("tcp:127.0.0.1:" + port, "tcp:" + port, count, perSecond);
            }
            if (count > 0 && !link.equals("tcp")) {
                try (PtyPair pair = PtyPair.open(Files.createTempDirectory("sweepbook-throughput"))) {
                    run("serial:" + pair.ours(), pair.theirs().toString(), count, perSecond);
                }
            }
        }
    }

    private static int freePort() throws IOException {
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return free.getLocalPort();
        }
    }

    /** Sends readings numbered by their value, to a device or to whoever connects to a port. */
    private static void send(String where, int count, int perSecond) throws Exception {
        if (where.startsWith("tcp:")) {
            try (ServerSocket server = new ServerSocket(
                            Integer.parseInt(where.substring(4)), 1, InetAddress.getLoopbackAddress());
                    Socket client = server.accept()) {
                send(client.getOutputStream(), count, perSecond);
                // The last bytes are read before the connection goes.
                client.shutdownOutput();
                client.getInputStream().read();
            }
        } else {
            try (OutputStream device = Files.newOutputStream(Path.of(where))) {
                send(device, count, perSecond);
                TimeUnit.SECONDS.sleep(2);
            }
        }
    }

    private static void send(OutputStream to, int count, int perSecond) throws IOException, InterruptedException {
        // The encoder prints with a Formatter, which would be what is measured: only the digits change here.
        byte[] frame = new FrameEncoder(Profiles.bundled("text-timed-stream")).encode(new Reading(0, 0));
        BufferedOutputStream out = new BufferedOutputStream(to, perSecond == 0 ? 8192 : 64);
        long start = System.nanoTime();
        for (int i = 0; i < count; i++) {
            if (perSecond > 0) {
                long due = start + i * 1_000_000_000L / perSecond;
                TimeUnit.NANOSECONDS.sleep(due - System.nanoTime());
            }
            digits(frame, 11, System.nanoTime() / 1000);
            digits(frame, 21, i % STEPS * 100L);
            out.write(frame);
            if (perSecond > 0) {
                out.flush();
            }
        }
        out.flush();
    }

    /** Writes a number into the digits that end at a place, over a point in between. */
    private static void digits(byte[] frame, int end, long number) {
        long rest = number;
        for (int at = end; frame[at] != ' ' && frame[at] != '+'; at--) {
            if (frame[at] != '.') {
                frame[at] = (byte) ('0' + rest % 10);
                rest /= 10;
            }
            if (at == 0) {
                return;
            }
        }
    }

    private static void run(String link, String where, int count, int perSecond) throws Exception {
        Process sender = new ProcessBuilder(List.of(
                        ProcessHandle.current().info().command().orElseThrow(),
                        "-cp",
                        classPath(),
                        ThroughputBenchmark.class.getName(),
                        "send",
                        where,
                        "" + count,
                        "" + perSecond))
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        try (ReadingSource source = open(link)) {
            measure(link, source, count);
        } finally {
            sender.destroy();
            sender.waitFor();
        }
    }

    private static String classPath() throws Exception {
        Path tests = Path.of(ThroughputBenchmark.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        Path main = Path.of(Profiles.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        Path jackson = Path.of(com.fasterxml.jackson.databind.ObjectMapper.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        Path core = Path.of(com.fasterxml.jackson.core.JsonFactory.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        Path annotations = Path.of(com.fasterxml.jackson.annotation.JsonProperty.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        return String.join(
                ":",
                List.of(tests, main, jackson, core, annotations).stream()
                        .map(Path::toString)
                        .toList());
    }

    /** The sender needs a moment until it listens. */
    private static ReadingSource open(String link) throws Exception {
        for (int i = 0; ; i++) {
            try {
                return ReadingSources.open(
                        LinkAddress.parse(link),
                        Optional.of(Profiles.bundled("text-timed-stream")),
                        Clock.system(),
                        Duration.ofSeconds(1));
            } catch (IOException notYet) {
                if (i == 200) {
                    throw notYet;
                }
                TimeUnit.MILLISECONDS.sleep(50);
            }
        }
    }

    private static void measure(String link, ReadingSource source, int count) throws IOException {
        double[] latency_s = new double[count];
        int taken = 0;
        int lost = 0;
        int doubled = 0;
        int disorder = 0;
        int next = 0;
        long cpu_ns = 0;
        long start_ns = 0;
        double heap_mb = 0;
        double grown_mb = 0;
        while (next < count) {
            // The sender may take its time to start; once it sends it does not stop for so long.
            Event event = source.next(taken == 0 ? Duration.ofSeconds(60) : Duration.ofSeconds(10));
            long now_ns = System.nanoTime();
            if (!(event instanceof Event.ReadingTaken reading)) {
                System.out.println(link + ": " + event);
                lost = count - taken;
                break;
            }
            if (taken == 0) {
                start_ns = now_ns;
                cpu_ns = cpu_ns();
            }
            int number = (int) Math.round(reading.reading().reading_mm() * 1000);
            int ahead = Math.floorMod(number - next % STEPS, STEPS);
            if (ahead == STEPS - 1) {
                doubled++;
            } else if (ahead > STEPS / 2) {
                disorder++;
            } else {
                lost += ahead;
                next += ahead + 1;
            }
            if (taken < count) {
                latency_s[taken++] = now_ns / 1e9 - reading.reading().time_s();
            }
            if (taken == count / 10) {
                heap_mb = heap_mb();
            } else if (taken == count - 1) {
                grown_mb = heap_mb() - heap_mb;
            }
        }
        double seconds = (System.nanoTime() - start_ns) / 1e9;
        Arrays.sort(latency_s, 0, taken);
        System.out.printf(
                Locale.ROOT,
                "%-5s %9d %10.0f %6d %8d %6d %12.2f %9.2f %6.0f %9.1f %9.1f%n",
                link.substring(0, link.indexOf(':')),
                taken,
                taken / seconds,
                lost,
                doubled,
                disorder,
                1e3 * latency_s[taken / 2],
                1e3 * latency_s[(int) (0.99 * taken)],
                100 * (cpu_ns() - cpu_ns) / 1e9 / seconds,
                heap_mb,
                grown_mb);
    }

    private static long cpu_ns() {
        return ((com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }

    private static double heap_mb() {
        System.gc();
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed() / 1e6;
    }
}
