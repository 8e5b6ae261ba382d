package sweepbook.acquisition.trace;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;

/**
 * Writes a trace as it grows; what {@link TraceCsv} reads back is the same to the last bit. Readings are in the file
 * after {@link #flush}, and on the disk after {@link #sync}. Used by one thread.
 */
public final class TraceCsvWriter implements AutoCloseable {
    /** What stands beside time and reading in every row. */
    public enum Beside {
        NOTHING(""),
        MARKS(",mark"),
        ANGLES(",angle_deg");

        private final String head;

        Beside(String head) {
            this.head = head;
        }
    }

    private static final int MICROSECONDS = 6;
    private static final int ANGLE_DECIMALS = 4;
    private static final int FLUSH_AT = 1 << 15;

    private final Path file;
    private final FileChannel channel;
    private final StringBuilder pending = new StringBuilder();
    private long size;
    private LengthUnit unit;
    private int decimals;
    private Beside beside;

    private TraceCsvWriter(Path file, FileChannel channel) {
        this.file = file;
        this.channel = channel;
    }

    /** Takes the file, so that a wrong name shows before anything is measured; one that holds anything is left alone. */
    public static TraceCsvWriter open(Path file) throws IOException {
        return new TraceCsvWriter(file, channel(file));
    }

    /**
     * Writes the head, once, before the first reading.
     *
     * @param resolution_mm step of the display, NaN where it is not known
     * @param besideReading what the rows hold besides
     * @param comments lines for a person, without the leading #
     */
    public void begin(LengthUnit ofUnit, double resolution_mm, Beside besideReading, List<String> comments)
            throws IOException {
        unit = ofUnit;
        decimals = decimals(unit, resolution_mm);
        beside = besideReading;
        for (String comment : comments) {
            line("# " + comment.replaceAll("\\R", " "));
        }
        if (!Double.isNaN(resolution_mm)) {
            line("# resolution_mm: " + BigDecimal.valueOf(resolution_mm).toPlainString());
        }
        line("time_s,reading_" + unit.symbol() + beside.head);
        flush();
    }

    private void line(String text) {
        pending.append(text).append('\n');
    }

    private static FileChannel channel(Path file) throws IOException {
        if (Files.isDirectory(file)) {
            throw new TraceFault(file + ": is a directory; name a file to write");
        }
        try {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE, StandardOpenOption.CREATE);
            if (channel.size() > 0) {
                channel.close();
                throw new TraceFault(file + ": is there already and would be lost; choose another name");
            }
            return channel;
        } catch (NoSuchFileException e) {
            throw new TraceFault(file + ": its folder does not exist; make the folder first");
        } catch (AccessDeniedException e) {
            throw new TraceFault(file + ": writing is not allowed there; choose another folder");
        } catch (FileSystemException e) {
            throw new TraceFault(file + ": cannot be written (" + e.getReason() + "); choose another folder");
        }
    }

    /** Writes a whole trace to a new file. */
    public static void write(Path file, Trace trace) throws IOException {
        try (TraceCsvWriter writer = open(file)) {
            Beside besideReading = trace.hasAngles() ? Beside.ANGLES : trace.hasMarks() ? Beside.MARKS : Beside.NOTHING;
            writer.begin(trace.unit(), trace.resolution_mm(), besideReading, List.of());
            for (int i = 0; i < trace.size(); i++) {
                writer.append(trace.reading(i), trace.hasAngles() ? trace.angle_deg(i) : Double.NaN);
            }
        }
    }

    private static int decimals(LengthUnit unit, double resolution_mm) {
        return Double.isNaN(resolution_mm) ? 4 : unit.decimals(resolution_mm);
    }

    /** Appends a row without an angle. */
    public void append(Reading reading) throws IOException {
        append(reading, Double.NaN);
    }

    /** Appends a row; the angle counts only where the rows hold angles. */
    public void append(Reading reading, double angle_deg) throws IOException {
        Decimals.print(pending, reading.time_s(), MICROSECONDS);
        pending.append(',');
        printReading(reading.reading_mm());
        switch (beside) {
            case NOTHING -> {}
            case MARKS -> pending.append(reading.mark() ? ",1" : ",0");
            case ANGLES -> Decimals.print(pending.append(','), angle_deg, ANGLE_DECIMALS);
        }
        pending.append('\n');
        if (pending.length() >= FLUSH_AT) {
            flush();
        }
    }

    /** A reading that came as inches goes back as the same inches, although its millimetres divide to others. */
    private void printReading(double reading_mm) {
        double value = unit.fromMm(reading_mm);
        double power = Math.pow(10, decimals);
        double shown = Math.rint(value * power) / power;
        Decimals.print(pending, unit.toMm(shown) == reading_mm ? shown : value, decimals);
    }

    /** Hands everything appended to the operating system: a kill of this process loses none of it. */
    public void flush() throws IOException {
        ByteBuffer bytes = ByteBuffer.wrap(pending.toString().getBytes(StandardCharsets.UTF_8));
        pending.setLength(0);
        try {
            long end = size + bytes.remaining();
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            size = end;
        } catch (IOException e) {
            throw cutBack(e);
        }
    }

    /** Flushes and waits until the disk has it: a power cut loses none of it. */
    public void sync() throws IOException {
        flush();
        try {
            channel.force(false);
        } catch (IOException e) {
            throw cutBack(e);
        }
    }

    /** A row of which only a part found room would make the whole file unreadable. */
    private TraceFault cutBack(IOException e) {
        TraceFault fault = new TraceFault(file + ": writing failed (" + e.getMessage()
                + "); the rows before are whole; make room or mend the disk, then record on under another name");
        fault.initCause(e);
        try {
            channel.truncate(size);
        } catch (IOException alsoFailed) {
            fault.addSuppressed(alsoFailed);
        }
        return fault;
    }

    /** Leaves a whole trace on the disk, or no file where nothing was begun. */
    @Override
    public void close() throws IOException {
        try (channel) {
            sync();
        }
        if (unit == null) {
            Files.deleteIfExists(file);
        }
    }
}
