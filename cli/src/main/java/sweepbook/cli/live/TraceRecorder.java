package sweepbook.cli.live;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.function.BooleanSupplier;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.TraceCsvWriter;

/**
 * Records a source to a trace file until it ends or somebody wants to stop. What the status line has counted is with the
 * operating system, and once a second on the disk. What is no reading is noted in a file beside the trace. Used by one
 * thread.
 */
public final class TraceRecorder {
    private static final Duration PATIENCE = Duration.ofMillis(100);
    private static final double SYNC_EVERY_S = 1;
    /** So many events at most pass before the status line is due again. */
    private static final int BATCH = 1024;

    private final ReadingSource source;
    private final Path file;
    private final Path notes;
    private final Clock clock;
    private final StatusLine status;
    private final double start_s;
    private double synced_s;
    private final Witness witness;
    private final LinkWatch link = new LinkWatch();
    private final EventWords words;
    private long readings;
    private double first_s;
    private long rows;
    private Reading last;

    /** @param witness what is told of the readings */
    public TraceRecorder(ReadingSource source, Path file, Clock clock, StatusLine status, Witness witness) {
        this.witness = witness;
        this.source = source;
        this.file = file;
        this.notes = file.resolveSibling(file.getFileName() + ".notes.txt");
        this.clock = clock;
        this.words = new EventWords(source);
        this.status = status;
        this.start_s = clock.monotonic_s();
        this.synced_s = start_s;
    }

    /** Records; when it throws, everything that came before is in the file. */
    public void record(List<String> comments, BooleanSupplier stop) throws IOException {
        try (TraceCsvWriter writer = TraceCsvWriter.open(file)) {
            boolean more = true;
            while (more && !witness.isDone() && !stop.getAsBoolean()) {
                more = takeBatch(writer, comments, stop);
                writer.flush();
                double now_s = clock.monotonic_s();
                if (now_s - synced_s >= SYNC_EVERY_S) {
                    writer.sync();
                    synced_s = now_s;
                }
                if (!more || status.isDue(now_s)) {
                    status.show(now_s, line(now_s));
                }
            }
            witness.end((reading, angle_deg) -> row(writer, comments, reading, angle_deg));
        } finally {
            status.end();
        }
    }

    /** Takes what is there, after waiting for the first of it; false at the end. */
    private boolean takeBatch(TraceCsvWriter writer, List<String> comments, BooleanSupplier stop) throws IOException {
        Event event = source.next(PATIENCE);
        for (int i = 0; event != Event.NothingYet.NOTHING_YET; i++) {
            if (event == Event.EndOfInput.END_OF_INPUT) {
                return false;
            }
            link.take(event);
            if (event instanceof Event.ReadingTaken taken) {
                take(writer, comments, taken);
            } else if (event instanceof Event.Incident incident) {
                note(incident);
            }
            if (i == BATCH || stop.getAsBoolean()) {
                break;
            }
            event = source.next(Duration.ZERO);
        }
        return true;
    }

    private void take(TraceCsvWriter writer, List<String> comments, Event.ReadingTaken taken) throws IOException {
        Reading reading = taken.reading();
        first_s = readings == 0 ? reading.time_s() : first_s;
        readings++;
        last = reading;
        witness.take(taken, clock.monotonic_s(), (r, angle_deg) -> row(writer, comments, r, angle_deg));
    }

    private void row(TraceCsvWriter writer, List<String> comments, Reading reading, double angle_deg)
            throws IOException {
        if (rows == 0) {
            writer.begin(source.unit(), source.resolution_mm(), witness.beside(), comments);
        }
        writer.append(reading, angle_deg);
        rows++;
    }

    private void note(Event.Incident incident) throws IOException {
        String what = words.timed(incident);
        if (LinkWatch.isWorthTelling(incident)) {
            status.say(what);
        }
        try {
            Files.writeString(notes, what + "\n", StandardOpenOption.CREATE, StandardOpenOption.APPEND);
        } catch (FileSystemException e) {
            throw new IOException(notes + ": cannot be written (" + e.getReason() + "); choose another folder", e);
        } catch (IOException e) {
            throw new IOException(notes + ": writing failed (" + e.getMessage() + "); make room or mend the disk", e);
        }
    }

    private String line(double now_s) {
        double elapsed_s = now_s - start_s;
        String lost = link.dropped() == 0 ? "" : ", " + link.dropped() + " dropped";
        if (readings == 0) {
            String state = link.trouble().orElse("waiting for the first reading");
            return String.format(Locale.ROOT, "%.0f s%s  %s", elapsed_s, lost, state);
        }
        return String.format(
                Locale.ROOT,
                "%s %s  %d readings, %.1f/s, %.0f s%s  %s",
                link.isDead() ? "-" : shown(last.reading_mm()),
                source.unit().symbol(),
                rows,
                rate_per_s(),
                elapsed_s,
                lost,
                link.trouble().orElse(witness.state()));
    }

    private String shown(double reading_mm) {
        LengthUnit unit = source.unit();
        return String.format(Locale.ROOT, unit == LengthUnit.IN ? "%+.5f" : "%+.4f", unit.fromMm(reading_mm));
    }

    /** Readings a second by their own times. */
    public double rate_per_s() {
        return span_s() > 0 ? (readings - 1) / span_s() : 0;
    }

    /** From the first reading to the last. */
    public double span_s() {
        return readings == 0 ? 0 : last.time_s() - first_s;
    }

    /** Readings that are in the file. */
    public long readings() {
        return rows;
    }

    /** Frames that were no readings to be trusted. */
    public long dropped() {
        return link.dropped();
    }

    /** Where the notes are; there are none unless something was to be noted. */
    public Path notes() {
        return notes;
    }
}
