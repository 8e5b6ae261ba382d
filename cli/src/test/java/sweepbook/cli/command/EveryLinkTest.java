package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sweepbook.acquisition.link.PtyPair;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.SoughtOffset;
import sweepbook.simulator.serve.IndicatorServer;
import sweepbook.simulator.serve.Pace;

/**
 * One job of the virtual technician measured three times by the same command: through a serial port, over TCP, and from a
 * file. Frames that carry the device's own time make the traces comparable to the bit.
 */
@Timeout(300)
class EveryLinkTest {
    private static final long SEED = 4;
    private static final String PROFILE = "text-timed-stream";
    private static final IndicatorProfile TIMED = Profiles.bundled(PROFILE);
    private static final int FRAME = new FrameEncoder(TIMED).encode(new Reading(0, 0)).length;

    @TempDir
    Path folder;

    /** Law: the way that the bytes take changes neither trace nor offset. */
    @Test
    void serialTcpAndReplayGiveTheSameTracesAndOffsets() throws Exception {
        Files.write(folder.resolve("positions"), RecordedJob.positions(SEED));

        Path overTcp = folder.resolve("tcp.book");
        try (IndicatorServer server =
                IndicatorServer.onLoopback(JoineryScenario.of(SEED), TIMED, Pace.AS_FAST_AS_THE_LINK, 0)) {
            measure("tcp:localhost:" + server.port(), overTcp, server);
        }
        Path replayed = folder.resolve("replay.book");
        measure("replay:" + RecordedJob.trace(folder, SEED), replayed);
        assertSameJob(overTcp, replayed);

        Path overSerial = folder.resolve("serial.book");
        try (PtyPair pair = PtyPair.open(folder);
                IndicatorServer server = IndicatorServer.onDevice(
                        JoineryScenario.of(SEED), TIMED, Pace.AS_FAST_AS_THE_LINK, pair.theirs())) {
            measure("serial:" + pair.ours(), overSerial, server);
        }
        assertSameJob(overTcp, overSerial);
    }

    /** Law: a job that was broken off and gone on with is the job done in one go; nothing is measured twice. */
    @Test
    void aReplayedJobGoesOnWhereItWasBrokenOff() throws Exception {
        String link = "replay:" + RecordedJob.trace(folder, SEED);
        Path positions = folder.resolve("positions");
        Files.write(positions, RecordedJob.positions(SEED));
        Path inOneGo = folder.resolve("one.book");
        measure(link, inOneGo);

        Path inTwo = folder.resolve("two.book");
        Files.write(positions, RecordedJob.positions(SEED).subList(0, 5));
        assertEquals(2, execute(link, inTwo, new PrintWriter(Writer.nullWriter())));
        Files.write(positions, RecordedJob.positions(SEED));
        measure(link, inTwo);
        assertEquals(keptPositions(inOneGo), keptPositions(inTwo));
        assertSameOffsets(offsets(inOneGo), offsets(inTwo));
    }

    /** Law: a link that is cut and comes back costs what was sent in between, and nothing was: the job is the same. */
    @Test
    void aLinkThatIsCutInMidTouchComesBackAndTheJobGoesOn() throws Exception {
        Files.write(folder.resolve("positions"), RecordedJob.positions(SEED));
        Path replayed = folder.resolve("replay.book");
        measure("replay:" + RecordedJob.trace(folder, SEED), replayed);

        Path cut = folder.resolve("cut.book");
        try (IndicatorServer server =
                        IndicatorServer.onLoopback(JoineryScenario.of(SEED), TIMED, Pace.AS_FAST_AS_THE_LINK, 0);
                CutLine line = new CutLine(server.port(), 2000 * FRAME)) {
            measure("tcp:localhost:" + line.port(), cut, server);
            assertTrue(line.cuts() > 1, line.cuts() + " cuts");
            long told = BookFile.read(cut).attempts().stream()
                    .flatMap(attempt -> attempt.incidents().stream())
                    .filter(incident -> incident.what().startsWith("link lost"))
                    .count();
            assertTrue(told > 0 && told <= line.cuts(), told + " told of " + line.cuts());
        }
        assertSameJob(replayed, cut);
    }

    /** Law: a second indicator on a link of its own is in the book under its name, each reading once and in order. */
    @Test
    void anIndicatorOnASecondLinkIsRecordedBeside() throws Exception {
        Files.write(folder.resolve("positions"), RecordedJob.positions(SEED));
        Path book = folder.resolve("two.book");
        try (IndicatorServer server =
                        IndicatorServer.onLoopback(JoineryScenario.of(SEED), TIMED, Pace.AS_FAST_AS_THE_LINK, 0);
                PtyPair pair = PtyPair.open(folder);
                Counting second = new Counting(pair.theirs())) {
            measure(
                    "tcp:localhost:" + server.port(),
                    book,
                    server,
                    "--beside",
                    "table=serial:" + pair.ours(),
                    "--beside-profile",
                    "text-mm-stream");
            assertTrue(second.sent() > 0);
        }
        int readings = 0;
        for (Attempt attempt : BookFile.read(book).attempts()) {
            for (Attempt.Beside beside : attempt.beside()) {
                assertEquals("table", beside.indicator());
                Trace trace = beside.trace();
                for (int i = 1; i < trace.size(); i++) {
                    assertEquals(0.001, trace.reading_mm(i) - trace.reading_mm(i - 1), 1e-9);
                }
                readings += trace.size();
            }
        }
        assertTrue(readings > 20, "only " + readings + " readings beside");
        StringWriter out = new StringWriter();
        CommandLine report = Sweepbook.commandLine();
        report.setOut(new PrintWriter(out, true));
        Path page = folder.resolve("two.html");
        assertEquals(0, report.execute("report", book.toString(), "--out", page.toString()));
        assertTrue(Files.readString(page).contains("readings of table; time counts"));
    }

    private static List<String> keptPositions(Path book) throws IOException {
        return BookFile.read(book).attempts().stream()
                .filter(Attempt::isKept)
                .map(attempt -> attempt.offset() + " "
                        + attempt.position(Moment.AT_THE_END).orElseThrow())
                .toList();
    }

    private void assertSameJob(Path one, Path other) throws Exception {
        List<Attempt> first = BookFile.read(one).attempts();
        List<Attempt> second = BookFile.read(other).attempts();
        assertEquals(8, first.size());
        assertEquals(first.size(), second.size());
        for (int i = 0; i < first.size(); i++) {
            Trace expected = first.get(i).trace();
            Trace actual = second.get(i).trace();
            assertTrue(expected.size() > 100, "a whole touch, not " + expected.size() + " readings");
            assertArrayEquals(expected.times_s(), actual.times_s(), "times of touch " + i + " of " + other);
            assertArrayEquals(expected.readings_mm(), actual.readings_mm(), "readings of touch " + i + " of " + other);
        }
        assertSameOffsets(offsets(one), offsets(other));
    }

    /** The uncertainty holds the drift over the time that truly passed between touches, here a second more or less. */
    private static void assertSameOffsets(List<ObjectNode> one, List<ObjectNode> other) {
        for (int i = 0; i < one.size(); i++) {
            for (String key : List.of("stdU", "u95")) {
                double first_mm = one.get(i).remove(key).doubleValue();
                assertEquals(first_mm, other.get(i).remove(key).doubleValue(), 2e-5, key);
            }
            assertEquals(one.get(i), other.get(i));
        }
    }

    private static List<ObjectNode> offsets(Path book) throws IOException {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine commandLine = Sweepbook.commandLine();
        commandLine.setOut(new PrintWriter(out, true));
        commandLine.setErr(new PrintWriter(err, true));
        assertEquals(0, commandLine.execute("offsets", book.toString(), "--json"), err.toString());
        List<ObjectNode> offsets = new ArrayList<>();
        for (String line : out.toString().lines().toList()) {
            offsets.add((ObjectNode) new ObjectMapper().readTree(line));
        }
        assertEquals(4, offsets.size());
        return offsets;
    }

    private void measure(String link, Path book) {
        StringWriter err = new StringWriter();
        assertEquals(0, execute(link, book, new PrintWriter(err, true)), err.toString());
    }

    /** The technician begins when the command has the link and says what to do. */
    private void measure(String link, Path book, IndicatorServer server, String... more) throws Exception {
        CountDownLatch told = new CountDownLatch(1);
        StringWriter err = new StringWriter();
        PrintWriter listening = new PrintWriter(new Listening(err, told), true);
        CompletableFuture<Integer> status = CompletableFuture.supplyAsync(() -> execute(link, book, listening, more));
        status.whenComplete((done, failed) -> told.countDown());
        told.await();
        CompletableFuture.runAsync(() -> makeAllTouches(server));
        status.completeOnTimeout(-1, 100, TimeUnit.SECONDS);
        assertEquals(0, status.get(), err.toString());
    }

    private int execute(String link, Path book, PrintWriter err, String... more) {
        CommandLine commandLine = Sweepbook.commandLine();
        commandLine.setErr(err);
        List<String> args = new ArrayList<>(List.of("measure", RecordedJob.PLAN, link, "--profile", PROFILE));
        args.addAll(List.of("--book", book.toString()));
        args.addAll(List.of("--positions", folder.resolve("positions").toString()));
        args.addAll(List.of(more));
        return commandLine.execute(args.toArray(String[]::new));
    }

    private static void makeAllTouches(IndicatorServer server) {
        try {
            for (SoughtOffset offset : JoineryScenario.of(SEED).offsets()) {
                for (int touch = 0; touch < offset.touches().size(); touch++) {
                    server.touch(offset.name(), touch);
                }
            }
        } catch (IOException clientLeft) {
            // The command has all it needs and has closed the link before the last rest was over.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Passes on what is written and tells of the first of it. */
    private static final class Listening extends Writer {
        private final Writer to;
        private final CountDownLatch told;

        Listening(Writer to, CountDownLatch told) {
            this.to = to;
            this.told = told;
        }

        @Override
        public void write(char[] text, int from, int length) throws IOException {
            to.write(text, from, length);
            told.countDown();
        }

        @Override
        public void flush() throws IOException {
            to.flush();
        }

        @Override
        public void close() throws IOException {
            to.close();
        }
    }
}
