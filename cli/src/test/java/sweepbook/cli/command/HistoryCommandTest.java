package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.time.Clock;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.JoineryBook;
import sweepbook.cli.plan.Plans;

class HistoryCommandTest extends RunsCommands {
    @TempDir
    private Path folder;

    /** Book of a machine whose true lengths are drawn from the seed. */
    private Path book(String name, long seed, String begun) throws Exception {
        Path file = folder.resolve(name);
        JoineryBook.write(file, seed, Instant.parse(begun));
        return file;
    }

    /** Simulated truth: the same lengths in March and April, others after the crash in May; given in no order. */
    @Test
    void whatMovedIsDatedAndWhatDidNotIsNot() throws Exception {
        Path may = book("may.book", 6, "2026-05-04T08:00:00Z");
        Path march = book("march.book", 5, "2026-03-02T08:00:00Z");
        Path april = book("april.book", 5, "2026-04-06T08:00:00Z");
        Path page = folder.resolve("history.html");
        assertEquals(
                ExitStatus.NOT_DETERMINED,
                run("history", may, march, april, "--out", page),
                "Z is measured in no book");
        List<String> lines = out.toString().lines().toList();
        assertEquals("Swivel axis to spindle, along X (swivel-axis-to-spindle)", lines.get(0));
        assertTrue(lines.get(2).startsWith("  2026-03-02") && lines.get(2).endsWith(march.toString()), lines.get(2));
        assertTrue(
                lines.get(3).startsWith("  2026-04-06") && lines.get(3).contains("no more than chance"), lines.get(3));
        assertTrue(lines.get(4).startsWith("  2026-05-04") && lines.get(4).contains("  2026-04-06"), lines.get(4));
        assertTrue(out.toString().contains("not determined: " + may + ": 1 of 2 touches made"), out::toString);
        String html = Files.readString(page);
        DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(html.replace("<!DOCTYPE html>", ""))));
        assertEquals(3, html.split("<svg", -1).length - 1, "a picture for each offset that was measured");
        for (Path book : List.of(march, april, may)) {
            assertTrue(html.contains(JournalCheck.of(book).hash()), "whoever has book and page can tell they belong");
        }
    }

    @Test
    void booksOfTwoMachinesAreNotMixed() throws Exception {
        Path one = book("one.book", 5, "2026-03-02T08:00:00Z");
        Path other = folder.resolve("other.book");
        String plan = Plans.text("joinery-head").replace("BH-2-0417", "BH-3-0998");
        BookFile.begin(other, Clock.system(), new BookEvent.Begun("1", plan, "text-mm-stream", "", ""))
                .close();
        assertEquals(ExitStatus.WRONG_USE, run("history", one, other));
        assertEquals(
                "sweepbook: " + other + ": is of the machine BH-3-0998, but " + one
                        + " of BH-2-0417; give books of one machine" + System.lineSeparator(),
                err.toString());
    }

    /** A copy would show an offset that has not moved. */
    @Test
    void aBookCountsOnce() throws Exception {
        Path book = book("march.book", 5, "2026-03-02T08:00:00Z");
        Path copy = Files.copy(book, folder.resolve("copy.book"));
        assertEquals(ExitStatus.WRONG_USE, run("history", book, copy));
        assertEquals(
                "sweepbook: " + copy + ": is the same book as " + book
                        + ", its first touch begun at the same instant; give each book once" + System.lineSeparator(),
                err.toString());
    }

    private void assertKept(Path kept, Path book) {
        assertEquals(ExitStatus.WRONG_USE, run("history", book, "--out", kept));
        assertEquals(
                "sweepbook: " + kept + ": is there already and is no page; choose another name"
                        + System.lineSeparator(),
                err.toString());
    }

    /** A device named by mistake. */
    @Test
    @DisabledOnOs(value = OS.WINDOWS, disabledReason = "has no such device among its files")
    void noDeviceIsReplacedByAPage() throws Exception {
        Path device = Files.createSymbolicLink(folder.resolve("device"), Path.of("/dev/null"));
        assertKept(device, book("march.book", 5, "2026-03-02T08:00:00Z"));
    }

    /** A book named by mistake. */
    @Test
    void onlyAPageIsReplacedByAPage() throws Exception {
        Path book = book("march.book", 5, "2026-03-02T08:00:00Z");
        byte[] before = Files.readAllBytes(book);
        assertKept(book, book);
        assertArrayEquals(before, Files.readAllBytes(book));
        Path page = folder.resolve("history.html");
        run("history", book, "--out", page);
        assertEquals(ExitStatus.NOT_DETERMINED, run("history", book, "--out", page), err::toString);
    }
}
