package sweepbook.acquisition.trace;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TraceCsvTest {
    @TempDir
    Path folder;

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("sweep.csv"), text);
    }

    private void assertFault(String text, String... parts) throws IOException {
        Path file = file(text);
        String message =
                assertThrows(TraceFault.class, () -> TraceCsv.read(file)).getMessage();
        assertFalse(message.contains("\n"), message);
        assertTrue(message.startsWith(file.toString()), message);
        for (String part : parts) {
            assertTrue(message.contains(part), message);
        }
    }

    @Test
    void commentsHeaderAndRowsAreRead() throws IOException {
        Trace trace = TraceCsv.read(
                file("# shaft 2, Tuesday\n# resolution_mm: 0.001\ntime_s,reading_mm\n0,1.5\n.25,-0.007\n"));
        assertArrayEquals(new double[] {0, 0.25}, trace.times_s());
        assertArrayEquals(new double[] {1.5, -0.007}, trace.readings_mm());
        assertEquals(LengthUnit.MM, trace.unit());
        assertEquals(0.001, trace.resolution_mm());
        assertFalse(trace.hasMarks());
    }

    @Test
    void inchesComeAsMillimetres() throws IOException {
        Trace trace = TraceCsv.read(file("time_s,reading_in\n0,1\n1,0.0005\n"));
        assertArrayEquals(new double[] {25.4, 0.0005 * 25.4}, trace.readings_mm());
        assertEquals(LengthUnit.IN, trace.unit());
        assertTrue(Double.isNaN(trace.resolution_mm()));
    }

    @Test
    void theLastDigitThatWasWrittenIsTold() throws IOException {
        assertEquals(
                0.001,
                TraceCsv.read(file("time_s,reading_mm\n0.0000,1.5\n1,1.500 \n")).lastDigit_mm());
        assertEquals(
                25.4 / 10000,
                TraceCsv.read(file("time_s,reading_in\n0,1\n1,.0123\n")).lastDigit_mm(),
                1e-15);
        assertEquals(1, TraceCsv.read(file("time_s,reading_mm\n0,1.\n1,-2\n")).lastDigit_mm());
        assertEquals(
                1e-5,
                TraceCsv.read(file("time_s,reading_mm\n0,1.500e-2\n1,1E2\n")).lastDigit_mm(),
                1e-15);
    }

    @Test
    void marksAnglesAndAnyOrderOfColumnsAreRead() throws IOException {
        Trace trace = TraceCsv.read(file("mark,angle_deg,reading_mm,time_s\n0,10.5,0.1,0\n1,20,0.2,1\n"));
        assertTrue(trace.mark(1) && !trace.mark(0));
        assertEquals(10.5, trace.angle_deg(0));
        assertEquals(0.2, trace.reading_mm(1));
    }

    @Test
    void lineEndsBlanksEmptyLinesAndAByteOrderMarkDoNoHarm() throws IOException {
        Trace trace = TraceCsv.read(file("\uFEFFtime_s, reading_mm\r\n0, 1.0\r\n\r\n1 ,2e-3\r\n2,3"));
        assertArrayEquals(new double[] {1, 0.002, 3}, trace.readings_mm());
    }

    @Test
    void aBadRowIsToldWithFileAndLine() throws IOException {
        String head = "# c\ntime_s,reading_mm,mark\n0,1,0\n";
        assertFault(head + "1,0.5x,0\n", "line 4", "'0.5x'", "reading_mm");
        assertFault(head + "1,1,0,0\n", "line 4", "more than the 3 fields");
        assertFault(head + "1,\"1,5\",0\n", "line 4");
        assertFault(head + "1,1\n", "line 4", "2 fields where the header has 3");
        assertFault(head + "1,,0\n", "line 4", "''");
        assertFault(head + "1,NaN,0\n", "line 4", "NaN");
        assertFault(head + "1,Infinity,0\n", "line 4");
        assertFault(head + "1,1e999,0\n", "line 4");
        assertFault(head + "1,0x1p3,0\n", "line 4");
        assertFault(head + "1,1d,0\n", "line 4");
        assertFault(head + "1,1,2\n", "line 4", "a mark is 0 or 1");
        assertFault(head + "-1,1,0\n", "line 4", "before");
        assertFault(head + "1,1000001,0\n", "line 4", "out of all bounds");
        assertFault(head + "1,1e6,0\n# late comment\n", "line 5");
    }

    @Test
    void aReadingBeyondAllBoundsInMillimetresIsABadRow() throws IOException {
        assertFault("time_s,reading_in\n0,1e308\n", "line 2");
    }

    @Test
    void aBadHeadIsToldWithFileAndLine() throws IOException {
        assertFault("time_s,reading\n0,1\n", "line 1", "'reading'");
        assertFault("0,1\n", "line 1");
        assertFault("time_s,mark\n0,1\n", "line 1", "reading_mm or reading_in");
        assertFault("time_s,reading_mm,reading_in\n", "line 1", "one too many");
        assertFault("time_s,time_s,reading_mm\n", "line 1", "one too many");
        assertFault("# resolution_mm: fine\ntime_s,reading_mm\n0,1\n", "line 1", "'fine'");
        assertFault("time_s;reading_mm\n0;1\n", "line 1", "commas");
        assertFault("x".repeat(5000), "line 1", "no trace file");
        assertFault("\u0000\u0001picture\n", "line 1", "no UTF-8 text");
    }

    @Test
    void anEmptyFileOneWithoutReadingsADirectoryAndAMissingFileAreToldApart() throws IOException {
        assertFault("", "no header");
        assertFault("# only a comment\n", "no header");
        assertFault("time_s,reading_mm\n", "no readings");
        assertTrue(assertThrows(TraceFault.class, () -> TraceCsv.read(folder))
                .getMessage()
                .contains("is a directory"));
        assertTrue(assertThrows(TraceFault.class, () -> TraceCsv.read(folder.resolve("none.csv")))
                .getMessage()
                .contains("no such file"));
    }

    @Test
    void aFileThatHoldsSomethingIsNeverWrittenOver() throws IOException {
        Path file = file("time_s,reading_mm\n0,1\n");
        assertThrows(TraceFault.class, () -> TraceCsvWriter.open(file));
        assertEquals("time_s,reading_mm\n0,1\n", Files.readString(file));
        assertThrows(TraceFault.class, () -> TraceCsvWriter.open(folder));
        assertThrows(
                TraceFault.class,
                () -> TraceCsvWriter.open(folder.resolve("none").resolve("x.csv")));
    }

    @Test
    void whatWasFlushedIsInTheFileAndWhatWasNeverBegunLeavesNone() throws IOException {
        Path file = folder.resolve("new.csv");
        TraceCsvWriter.open(file).close();
        assertFalse(Files.exists(file));
        try (TraceCsvWriter writer = TraceCsvWriter.open(file)) {
            writer.begin(LengthUnit.IN, 0.0127, TraceCsvWriter.Beside.MARKS, List.of("two\nlines"));
            writer.append(new Reading(0.1, 0.0005 * 25.4, true));
            writer.flush();
            assertEquals(
                    "# two lines\n# resolution_mm: 0.0127\ntime_s,reading_in,mark\n0.100000,0.0005,1\n",
                    Files.readString(file, StandardCharsets.UTF_8));
        }
    }
}
