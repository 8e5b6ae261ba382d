package sweepbook.acquisition.trace;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A trace in a CSV file, read row by row.
 *
 * <pre>
 * # resolution_mm: 0.001        comment lines come first; this one, where it is there, tells the display's step
 * time_s,reading_mm,mark        reading_mm or reading_in; mark, angle_deg and their order are free
 * 0.000000,-0.012,0             decimal point; times never descend; mark is 0 or 1
 * </pre>
 *
 * <p>UTF-8; lines end with or without a carriage return. Used by one thread.
 */
public final class TraceCsv implements AutoCloseable {
    /** A row has four numbers at most; a line longer than this is no row of a trace. */
    private static final int LONGEST_LINE = 4096;

    private static final String RESOLUTION = "# resolution_mm:";
    private static final String TIME = "time_s";
    private static final String READING = "reading_";
    private static final String MARK = "mark";
    private static final String ANGLE = "angle_deg";

    /** What stands in place of bytes that are no UTF-8. */
    private static final char NO_TEXT = '\uFFFD';

    private final InputStream in;
    private final String name;
    private final byte[] chunk = new byte[1 << 16];
    private int chunkAt;
    private int chunkEnd;
    private final byte[] line = new byte[LONGEST_LINE];
    private int length;
    private long lineNumber;

    private double resolution_mm = Double.NaN;
    private LengthUnit unit;
    private List<String> columns;
    private int decimals;
    private double lastTime_s = Double.NEGATIVE_INFINITY;

    /** A row: a reading, and its angle in degrees or NaN where the file has none. */
    public record Row(Reading reading, double angle_deg) {}

    private TraceCsv(InputStream in, String name) {
        this.in = in;
        this.name = name;
    }

    /** Opens the file and reads as far as the header. */
    public static TraceCsv open(Path file) throws IOException {
        if (Files.isDirectory(file)) {
            throw new TraceFault(file + ": is a directory; name a trace file");
        }
        InputStream in;
        try {
            in = Files.newInputStream(file);
        } catch (NoSuchFileException e) {
            throw new TraceFault(file + ": no such file; check the name");
        }
        return open(in, file.toString());
    }

    /** Reads from the stream as far as the header; name is what messages call it. */
    public static TraceCsv open(InputStream in, String name) throws IOException {
        TraceCsv csv = new TraceCsv(in, name);
        try {
            csv.readHeader();
        } catch (IOException e) {
            in.close();
            throw e;
        }
        return csv;
    }

    /** The whole trace; one without readings is a fault. */
    public static Trace read(Path file) throws IOException {
        try (TraceCsv csv = open(file)) {
            return csv.readAll();
        }
    }

    /** The whole trace; one without readings is a fault. */
    public static Trace read(InputStream in, String name) throws IOException {
        try (TraceCsv csv = open(new BufferedInputStream(in), name)) {
            return csv.readAll();
        }
    }

    private Trace readAll() throws IOException {
        Trace.Builder trace = new Trace.Builder(unit, resolution_mm);
        boolean angles = hasAngles();
        for (Optional<Row> row = next(); row.isPresent(); row = next()) {
            if (angles) {
                trace.addAtAngle(row.get().reading(), row.get().angle_deg());
            } else {
                trace.add(row.get().reading());
            }
        }
        if (trace.size() == 0) {
            throw new TraceFault(name + ": holds a header but no readings; record the trace again");
        }
        return trace.writtenTo(unit.toMm(Decimals.step(decimals))).build();
    }

    /** The unit of the file's readings; rows come in millimetres. */
    public LengthUnit unit() {
        return unit;
    }

    /** The step of the display in millimetres, NaN where the file does not say. */
    public double resolution_mm() {
        return resolution_mm;
    }

    /** Whether the file has a column of witness marks. */
    public boolean hasMarks() {
        return columns.contains(MARK);
    }

    /** Whether the file has a column of angles. */
    public boolean hasAngles() {
        return columns.contains(ANGLE);
    }

    private void readHeader() throws IOException {
        while (nextLine()) {
            String text = new String(line, 0, length, StandardCharsets.UTF_8);
            if (lineNumber == 1 && text.startsWith("\uFEFF")) {
                text = text.substring(1);
            }
            if (text.startsWith("#")) {
                if (text.startsWith(RESOLUTION)) {
                    resolution_mm =
                            resolution(text.substring(RESOLUTION.length()).strip());
                }
            } else if (text.chars().anyMatch(c -> c == NO_TEXT || Character.isISOControl(c) && c != '\t')) {
                throw fault("is no UTF-8 text; a trace begins with time_s,reading_mm or reading_in");
            } else {
                columns(text);
                return;
            }
        }
        throw new TraceFault(name + ": holds no header row; a trace begins with time_s,reading_mm or reading_in");
    }

    private double resolution(String text) throws TraceFault {
        byte[] ascii = text.getBytes(StandardCharsets.US_ASCII);
        double value = Decimals.parse(ascii, 0, ascii.length);
        if (!(value > 0) || Double.isInfinite(value)) {
            throw fault("the resolution '" + cut(text) + "' is no positive number; correct or delete the line");
        }
        return value;
    }

    private void columns(String header) throws TraceFault {
        columns = new ArrayList<>();
        for (String column : header.split(",", -1)) {
            String word = column.strip();
            boolean reading = word.equals(READING + "mm") || word.equals(READING + "in");
            if (!reading && !List.of(TIME, MARK, ANGLE).contains(word)) {
                throw fault("column '" + cut(word)
                        + "' is not known; the header holds time_s, reading_mm or reading_in, and maybe mark and"
                        + " angle_deg, separated by commas");
            }
            if (reading && unit != null || columns.contains(word)) {
                throw fault("column '" + word + "' is one too many; keep one");
            }
            if (reading) {
                unit = LengthUnit.of(word.substring(READING.length()));
            }
            columns.add(reading ? READING : word);
        }
        if (!columns.contains(TIME) || unit == null) {
            throw fault("the header needs a column time_s and a column reading_mm or reading_in");
        }
    }

    /** The next row; empty at the end of the file. */
    public Optional<Row> next() throws IOException {
        if (!nextLine()) {
            return Optional.empty();
        }
        double time_s = Double.NaN;
        double reading = Double.NaN;
        boolean mark = false;
        double angle_deg = Double.NaN;
        int start = 0;
        int column = 0;
        for (int i = 0; i <= length; i++) {
            if (i < length && line[i] != ',') {
                continue;
            }
            if (column == columns.size()) {
                throw fault("has more than the " + columns.size() + " fields of the header; correct or delete the row");
            }
            String what = columns.get(column);
            double value = field(what, start, i);
            switch (what) {
                case TIME -> time_s = value;
                case READING -> reading = value;
                case MARK -> mark = mark(value);
                default -> angle_deg = value;
            }
            start = i + 1;
            column++;
        }
        if (column < columns.size()) {
            throw fault(
                    "has " + column + " fields where the header has " + columns.size() + "; correct or delete the row");
        }
        if (!Trace.isTime(time_s)) {
            throw fault("its time is out of all bounds; correct or delete the row");
        }
        if (time_s < lastTime_s) {
            throw fault("its time " + time_s + " s comes before the one of the row ahead, " + lastTime_s
                    + " s; times must not descend");
        }
        if (!Trace.isReading(unit.toMm(reading))) {
            throw fault("its reading is out of all bounds; correct or delete the row");
        }
        lastTime_s = time_s;
        return Optional.of(new Row(new Reading(time_s, unit.toMm(reading), mark), angle_deg));
    }

    private double field(String what, int from, int to) throws TraceFault {
        while (from < to && line[from] == ' ') {
            from++;
        }
        while (from < to && line[to - 1] == ' ') {
            to--;
        }
        double value = Decimals.parse(line, from, to);
        if (!Double.isFinite(value)) {
            String text = new String(line, from, to - from, StandardCharsets.UTF_8);
            throw fault("'" + cut(text) + "' in column " + (what.equals(READING) ? READING + unit.symbol() : what)
                    + " is no number with a decimal point; correct or delete the row");
        }
        if (what.equals(READING)) {
            decimals = Math.max(decimals, Decimals.count(line, from, to));
        }
        return value;
    }

    private boolean mark(double value) throws TraceFault {
        if (value != 0 && value != 1) {
            throw fault("a mark is 0 or 1; correct or delete the row");
        }
        return value == 1;
    }

    /** Fetches the next line that is not empty; false at the end of the file. */
    private boolean nextLine() throws IOException {
        while (true) {
            length = 0;
            int b = read();
            if (b < 0) {
                return false;
            }
            lineNumber++;
            while (b >= 0 && b != '\n') {
                if (length == LONGEST_LINE) {
                    throw fault("is longer than " + LONGEST_LINE + " bytes; this is no trace file");
                }
                line[length++] = (byte) b;
                b = read();
            }
            if (length > 0 && line[length - 1] == '\r') {
                length--;
            }
            if (length > 0) {
                return true;
            }
        }
    }

    private int read() throws IOException {
        if (chunkAt == chunkEnd) {
            chunkEnd = in.read(chunk);
            chunkAt = 0;
            if (chunkEnd <= 0) {
                chunkEnd = 0;
                return -1;
            }
        }
        return chunk[chunkAt++] & 0xff;
    }

    private TraceFault fault(String what) {
        return new TraceFault(name + ", line " + lineNumber + ": " + what);
    }

    private static String cut(String text) {
        return text.length() <= 40 ? text : text.substring(0, 40) + "...";
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
