package sweepbook.acquisition.trace;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Writes a trace as it grows; what {@link TraceCsv} reads back is the same to the last bit. Readings are in the file
 * after {@link #flush}, and on the disk after {@link #sync}. Used by one thread.
 */
public final class TraceCsvWriter implements AutoCloseable {
    private static final int MICROSECONDS = 6;
    private static final int FLUSH_AT = 1 << 15;

    private final FileChannel channel;
    private final LengthUnit unit;
    private final int decimals;
    private final boolean marks;
    private final StringBuilder pending = new StringBuilder();

    private TraceCsvWriter(FileChannel channel, LengthUnit unit, int decimals, boolean marks) {
        this.channel = channel;
        this.unit = unit;
        this.decimals = decimals;
        this.marks = marks;
    }

    /**
     * Begins a file; one that is there already and holds anything is left alone.
     *
     * @param resolution_mm step of the display, NaN where it is not known
     * @param marks whether readings can carry witness marks
     * @param comments lines for a person, without the leading #
     */
    public static TraceCsvWriter create(
            Path file, LengthUnit unit, double resolution_mm, boolean marks, List<String> comments) throws IOException {
        FileChannel channel = open(file);
        TraceCsvWriter writer = new TraceCsvWriter(channel, unit, decimals(unit, resolution_mm), marks);
        List<String> head = new ArrayList<>();
        for (String comment : comments) {
            head.add("# " + comment.replaceAll("\\R", " "));
        }
        if (!Double.isNaN(resolution_mm)) {
            head.add("# resolution_mm: " + BigDecimal.valueOf(resolution_mm).toPlainString());
        }
        head.add("time_s,reading_" + unit.symbol() + (marks ? ",mark" : ""));
        for (String line : head) {
            writer.pending.append(line).append('\n');
        }
        writer.flush();
        return writer;
    }

    private static FileChannel open(Path file) throws IOException {
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
        }
    }

    /** Writes a whole trace to a new file. */
    public static void write(Path file, Trace trace) throws IOException {
        try (TraceCsvWriter writer = create(file, trace.unit(), trace.resolution_mm(), trace.hasMarks(), List.of())) {
            for (int i = 0; i < trace.size(); i++) {
                writer.append(trace.reading(i));
            }
        }
    }

    private static int decimals(LengthUnit unit, double resolution_mm) {
        if (Double.isNaN(resolution_mm)) {
            return 4;
        }
        // Twelve digits tell 0.00127 mm from 0.00005 in, which is not exact in binary.
        double resolution = Double.parseDouble(String.format(Locale.ROOT, "%.12g", unit.fromMm(resolution_mm)));
        return Math.max(
                0,
                Math.min(9, BigDecimal.valueOf(resolution).stripTrailingZeros().scale()));
    }

    public void append(Reading reading) throws IOException {
        Decimals.print(pending, reading.time_s(), MICROSECONDS);
        pending.append(',');
        printReading(reading.reading_mm());
        if (marks) {
            pending.append(reading.mark() ? ",1" : ",0");
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
        while (bytes.hasRemaining()) {
            channel.write(bytes);
        }
        pending.setLength(0);
    }

    /** Flushes and waits until the disk has it: a power cut loses none of it. */
    public void sync() throws IOException {
        flush();
        channel.force(false);
    }

    @Override
    public void close() throws IOException {
        try (channel) {
            sync();
        }
    }
}
