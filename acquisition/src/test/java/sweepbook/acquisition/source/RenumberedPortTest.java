package sweepbook.acquisition.source;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sweepbook.acquisition.source.LinkLifeTest.PATIENCE;
import static sweepbook.acquisition.source.LinkLifeTest.PLAIN;
import static sweepbook.acquisition.source.LinkLifeTest.await;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkKeeper;
import sweepbook.acquisition.link.PtyPair;
import sweepbook.acquisition.link.SerialPorts.Port;
import sweepbook.acquisition.source.Event.LinkBack;
import sweepbook.acquisition.source.Event.LinkLost;
import sweepbook.acquisition.source.Event.LinkStillLost;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;

/**
 * A port that is unplugged, and what is there when it is looked for again. The devices are real; what their adapters say of
 * themselves is played, for pseudo-terminals say nothing.
 */
@Timeout(60)
class RenumberedPortTest {
    @TempDir
    Path folder;

    private volatile List<Port> ports = List.of();

    private static Port port(Path path, String... marks) {
        return new Port(new LinkAddress.Serial(path.toString()), "adapter", true, List.of(marks));
    }

    private PtyPair pair(String name) throws IOException {
        return PtyPair.open(Files.createDirectories(folder.resolve(name)));
    }

    /** A source on the port usb0 that was lost after one reading, with another port beside it. */
    private WireSource lost(List<String> itsMarks, Port other) throws IOException {
        PtyPair before = pair("usb0");
        ports = List.of(port(before.ours(), itsMarks.toArray(String[]::new)), other);
        LinkAddress address = LinkAddress.parse("serial:" + before.ours());
        WireSource source =
                WireSource.open(new LinkKeeper(address, PLAIN.line(), () -> ports), PLAIN, Clock.system(), PATIENCE);
        assertReads(1, before, source);
        ports = List.of();
        before.close();
        await(LinkLost.class, source);
        return source;
    }

    /** Sends a line, and takes it. */
    private static void assertReads(double expected, PtyPair pair, ReadingSource source) throws IOException {
        try (OutputStream out = Files.newOutputStream(pair.theirs())) {
            out.write(new FrameEncoder(PLAIN).encode(new Reading(0, expected)));
            assertEquals(expected, await(ReadingTaken.class, source).reading().reading_mm());
        }
    }

    private static void assertComesBackAt(PtyPair pair, ReadingSource source) throws IOException {
        assertEquals("serial:" + pair.ours(), await(LinkBack.class, source).link());
        assertReads(2, pair, source);
    }

    @Test
    void aPortThatComesUpUnderAnotherNameIsFoundByWhatItsAdapterSays() throws Exception {
        Port other = port(Path.of("/dev/other"), "number 8");
        try (WireSource source = lost(List.of("number 7"), other);
                PtyPair after = pair("usb1")) {
            ports = List.of(other, port(after.ours(), "number 7"));
            assertComesBackAt(after, source);
        }
    }

    /** The name alone would put another indicator's readings into the trace. */
    @Test
    void anotherAdapterUnderTheOldNameIsNotTakenForTheLostOne() throws Exception {
        try (WireSource source = lost(List.of("number 7"), port(Path.of("/dev/other")));
                PtyPair stranger = pair("usb0");
                PtyPair itself = pair("usb1")) {
            Port other = port(stranger.ours(), "number 8");
            ports = List.of(other);
            String why = await(LinkStillLost.class, source).why();
            assertTrue(why.contains("but serial:" + stranger.ours() + " (adapter) has come up"), why);
            ports = List.of(other, port(itself.ours(), "number 7"));
            assertComesBackAt(itself, source);
        }
    }

    /** Without serial numbers two adapters of one make are told apart by their sockets; one alone may change it. */
    @Test
    void adaptersOfOneMakeAreToldApartByTheirSockets() throws Exception {
        Port beside = port(Path.of("/dev/twin"), "make", "make socket 2");
        try (WireSource source = lost(List.of("make", "make socket 1"), beside);
                PtyPair twin = pair("usb0");
                PtyPair itself = pair("usb1")) {
            ports = List.of(port(twin.ours(), "make", "make socket 2"), port(itself.ours(), "make", "make socket 1"));
            assertComesBackAt(itself, source);
        }
    }

    @Test
    void anAdapterThatIsAloneOfItsMakeMayComeBackInAnotherSocket() throws Exception {
        Port other = port(Path.of("/dev/other"));
        try (WireSource source = lost(List.of("make", "make socket 1"), other);
                PtyPair after = pair("usb1")) {
            ports = List.of(port(after.ours(), "make", "make socket 3"), other);
            assertComesBackAt(after, source);
        }
    }

    @Test
    void aPortThatAnotherProgramTookMeanwhileIsSaidSoAndComesBackWhenItIsFree() throws Exception {
        try (WireSource source = lost(List.of(), port(Path.of("/dev/other")));
                PtyPair after = pair("usb1")) {
            Process thief =
                    new ProcessBuilder("flock", "-x", after.ours().toString(), "sh", "-c", "echo locked; cat").start();
            assertEquals("locked", thief.inputReader().readLine());
            Path oldName = folder.resolve("usb0").resolve("indicator");
            Files.createSymbolicLink(oldName, after.ours().toRealPath());
            String why = await(LinkStillLost.class, source).why();
            assertTrue(why.contains("the port is busy; another program has it"), why);
            // The end of its input ends it and with it the lock.
            thief.getOutputStream().close();
            assertEquals(0, thief.waitFor());
            assertEquals("serial:" + oldName, await(LinkBack.class, source).link());
            assertReads(2, after, source);
        }
    }
}
