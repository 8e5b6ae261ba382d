package sweepbook.acquisition.journal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.time.SetClock;

class JournalTest {
    @TempDir
    Path folder;

    private final SetClock clock = new SetClock();
    private Path book;

    @BeforeEach
    void nameTheBook() {
        book = folder.resolve("set-up.book");
    }

    private static ObjectNode node(String field, Object value) {
        return JsonNodeFactory.instance.objectNode().putPOJO(field, value);
    }

    private static ObjectNode text(String field, String value) {
        return JsonNodeFactory.instance.objectNode().put(field, value);
    }

    /** A book of five lines. */
    private void write() throws IOException {
        try (Journal journal = Journal.create(book, clock, text("machine", "gantry router"))) {
            journal.append("position", JsonNodeFactory.instance.objectNode().put("typed", 12.345));
            clock.advance(1.5);
            journal.append(List.of(
                    new Journal.Draft("reading", text("word", "\u00fc \u2028 \"quoted\" \n")),
                    new Journal.Draft("reading", node("none", null))));
            journal.append("rejected", text("why", "bumped"));
        }
    }

    private OptionalLong brokenLine() {
        return assertThrows(JournalException.class, () -> JournalCheck.of(book)).brokenLine();
    }

    private List<String> lines() throws IOException {
        return new ArrayList<>(Files.readAllLines(book));
    }

    @Test
    void whatWasAppendedComesBack() throws IOException {
        write();
        List<JournalEntry> entries = JournalReader.readAll(book);
        assertEquals(
                List.of("journal", "position", "reading", "reading", "rejected"),
                entries.stream().map(JournalEntry::kind).toList());
        assertEquals(
                List.of(1L, 2L, 3L, 4L, 5L),
                entries.stream().map(JournalEntry::sequence).toList());
        assertEquals("gantry router", entries.get(0).payload().get("machine").textValue());
        assertEquals(12.345, entries.get(1).payload().get("typed").doubleValue());
        assertEquals(
                "\u00fc \u2028 \"quoted\" \n",
                entries.get(2).payload().get("word").textValue());
        assertEquals(5, entries.get(1).monotonic_s());
        assertEquals(6.5, entries.get(2).monotonic_s());
        assertEquals(clock.wall(), entries.get(2).wall());
    }

    @Test
    void aWholeBookChecks() throws IOException {
        write();
        JournalCheck check = JournalCheck.of(book);
        assertEquals(5, check.lines());
        assertEquals(0, check.tornBytes());
        assertTrue(check.endKnown());
        assertTrue(lines().get(4).endsWith("\"hash\":\"" + check.hash() + "\"}"));
    }

    @Test
    void everyFlippedByteIsFoundAtItsLine() throws IOException {
        write();
        byte[] good = Files.readAllBytes(book);
        int line = 1;
        for (int i = 0; i < good.length; i++) {
            byte[] bad = good.clone();
            bad[i] ^= 1;
            Files.write(book, bad);
            assertEquals(OptionalLong.of(line), brokenLine(), "byte " + i);
            if (good[i] == '\n') {
                line++;
            }
        }
        assertEquals(6, line);
    }

    @Test
    void everyRemovedLineIsFound() throws IOException {
        write();
        List<String> good = lines();
        for (int removed = 0; removed < good.size(); removed++) {
            List<String> bad = new ArrayList<>(good);
            bad.remove(removed);
            Files.write(book, bad);
            assertEquals(OptionalLong.of(removed + 1), brokenLine(), "line " + (removed + 1));
        }
    }

    @Test
    void everySwapOfNeighboursIsFound() throws IOException {
        write();
        List<String> good = lines();
        for (int i = 0; i + 1 < good.size(); i++) {
            List<String> bad = new ArrayList<>(good);
            Collections.swap(bad, i, i + 1);
            Files.write(book, bad);
            assertEquals(OptionalLong.of(i + 1), brokenLine());
        }
    }

    @Test
    void aRepeatedLineIsFound() throws IOException {
        write();
        List<String> bad = lines();
        bad.add(bad.get(4));
        Files.write(book, bad);
        assertEquals(OptionalLong.of(6), brokenLine());
    }

    @Test
    void aLineTornAtAnyByteIsSetAsideAndTheBookGoesOn() throws IOException {
        write();
        byte[] good = Files.readAllBytes(book);
        Journal torn = Journal.open(book, clock);
        // A kill during this line: it was not acknowledged, so the tip of the time before stands.
        byte[] tip = Files.readAllBytes(folder.resolve("set-up.book.tip"));
        torn.append("position", text("typed", "99.999"));
        torn.close();
        byte[] whole = Files.readAllBytes(book);
        int start = whole.length - 1;
        while (whole[start - 1] != '\n') {
            start--;
        }
        for (int cut = start; cut < whole.length; cut++) {
            Path file = folder.resolve("cut-" + cut + ".book");
            Files.write(file, Arrays.copyOf(whole, cut));
            Files.write(folder.resolve("cut-" + cut + ".book.tip"), tip);
            assertEquals(cut - start, JournalCheck.of(file).tornBytes());
            try (Journal journal = Journal.open(file, clock)) {
                assertEquals(cut > start, journal.setAside().isPresent());
                if (cut > start) {
                    assertArrayEquals(
                            Arrays.copyOfRange(whole, start, cut),
                            Files.readAllBytes(journal.setAside().get()));
                }
                journal.append("position", text("typed", "1.000"));
            }
            assertArrayEquals(good, Arrays.copyOf(Files.readAllBytes(file), good.length));
            assertEquals(8, JournalCheck.of(file).lines(), "cut at " + cut);
        }
    }

    @Test
    void withoutItsTipFileABookChecksButItsEndIsNotVouchedFor() throws IOException {
        write();
        Files.delete(folder.resolve("set-up.book.tip"));
        assertFalse(JournalCheck.of(book).endKnown());
    }

    @Test
    void aSecondWriterIsKeptOut() throws IOException, InterruptedException {
        write();
        try (Journal first = Journal.open(book, clock)) {
            assertThrows(JournalException.class, () -> Journal.open(book, clock));
            // Reading and checking beside the writer must not drop its lock.
            JournalCheck.of(book);
            JournalReader.readAll(book);
            Process other = new ProcessBuilder(java(OtherWriter.class))
                    .redirectErrorStream(true)
                    .start();
            String said = new String(other.getInputStream().readAllBytes());
            assertEquals(3, other.waitFor(), said);
            assertTrue(said.contains("another sweepbook is writing this book"), said);
            first.append("position", text("typed", "1"));
        }
        Journal.open(book, clock).close();
    }

    /** Tries to write a book from another process. */
    static final class OtherWriter {
        public static void main(String[] args) {
            try (Journal journal = Journal.open(Path.of(args[0]), new SetClock())) {
                System.out.println("opened " + journal.file());
            } catch (JournalException e) {
                System.out.println(e.getMessage());
                System.exit(3);
            }
        }
    }

    @Test
    void anExistingBookIsNotWrittenOver() throws IOException {
        write();
        byte[] before = Files.readAllBytes(book);
        JournalException e =
                assertThrows(JournalException.class, () -> Journal.create(book, clock, text("machine", "other")));
        assertTrue(e.getMessage().contains("is there already"), e.getMessage());
        assertArrayEquals(before, Files.readAllBytes(book));
        assertEquals(5, JournalCheck.of(book).lines());
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aFullQuotaEndsTheJournalButTheBookStaysWhole() throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("bash", "-c", "ulimit -f 4; exec \"$@\"", "quota"));
        command.addAll(java(FillsTheDisk.class));
        Process filler = new ProcessBuilder(command).redirectErrorStream(true).start();
        List<String> said = filler.inputReader().lines().toList();
        assertEquals(3, filler.waitFor(), said.toString());
        String fault = said.get(said.size() - 1);
        assertTrue(fault.contains("what was acknowledged before is safe"), fault);
        int acknowledged = said.size() - 1;
        assertTrue(acknowledged > 5, said.toString());
        assertEquals(acknowledged, JournalCheck.of(book).lines());
        assertEquals(0, JournalCheck.of(book).tornBytes());
        Journal.open(book, clock).close();
    }

    /** Appends until the system refuses; prints a line for each that was acknowledged, then the fault. */
    static final class FillsTheDisk {
        public static void main(String[] args) {
            try (Journal journal = Journal.create(Path.of(args[0]), new SetClock(), text("machine", "small disk"))) {
                System.out.println(1);
                while (true) {
                    System.out.println(journal.append("note", text("word", "x".repeat(100)))
                            .sequence());
                }
            } catch (JournalException e) {
                System.out.println(e.getMessage());
                System.exit(3);
            }
        }
    }

    private List<String> java(Class<?> main) {
        return List.of(
                ProcessHandle.current().info().command().orElseThrow(),
                "-cp",
                System.getProperty("java.class.path"),
                main.getName(),
                book.toString());
    }

    /** Non-regression: written by the first version, its hashes recomputed by another program; must read for ever. */
    @Test
    void aBookOfTheFirstVersionStaysReadable() throws Exception {
        Path kept =
                Path.of(JournalTest.class.getResource("/journal/version-1.book").toURI());
        JournalCheck check = JournalCheck.of(kept);
        assertEquals("df5cba4e3cf4a071ef85f95af65e596fef5c06062a3c6d3dc2b81176e29b70c1", check.hash());
        assertTrue(check.endKnown());
        List<JournalEntry> entries = JournalReader.readAll(kept);
        assertEquals(
                List.of("journal", "received", "typed", "opened", "left"),
                entries.stream().map(JournalEntry::kind).toList());
        assertEquals(5.3125, entries.get(1).payload().get("time_s").get(1).doubleValue());
        assertEquals("\u00fc 412.337", entries.get(2).payload().get("text").textValue());
        Files.copy(kept, book);
        Journal.open(book, clock).close();
        assertEquals(6, JournalCheck.of(book).lines());
    }

    @Test
    void aBookOfAnUnknownVersionIsRefusedWithBothNumbers() throws IOException {
        Chain chain = new Chain();
        Files.write(
                book,
                chain.add(
                        0,
                        clock.wall(),
                        "journal",
                        JsonNodeFactory.instance.objectNode().put("version", 9)));
        String message = assertThrows(JournalException.class, () -> JournalCheck.of(book))
                .getMessage();
        assertTrue(message.contains("version 9") && message.contains("version 1"), message);
    }

    @Test
    void whatIsNoBookIsSaidSo() throws IOException {
        Files.write(book, new byte[0]);
        assertTrue(assertThrows(JournalException.class, () -> JournalCheck.of(book))
                .getMessage()
                .contains("line 1: is missing"));
        assertTrue(assertThrows(JournalException.class, () -> JournalCheck.of(folder))
                .getMessage()
                .contains("directory"));
        assertTrue(assertThrows(JournalException.class, () -> JournalCheck.of(folder.resolve("no")))
                .getMessage()
                .contains("no such"));
        Path nowhere = folder.resolve("none").resolve("x.book");
        assertTrue(assertThrows(JournalException.class, () -> Journal.create(nowhere, clock, text("a", "b")))
                .getMessage()
                .contains("folder does not exist"));
    }
}
