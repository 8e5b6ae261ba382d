package sweepbook.acquisition.source;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import sweepbook.acquisition.source.Event.EndOfInput;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.TraceCsv;

/** A recorded trace as if it were measured now: its own times, as fast as it is asked for. */
final class CsvSource implements ReadingSource {
    private final String name;
    private final TraceCsv csv;

    CsvSource(String name, Path file) throws IOException {
        this.name = name;
        this.csv = TraceCsv.open(file);
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public Event next(Duration timeout) throws IOException {
        Optional<TraceCsv.Row> row = csv.next();
        return row.isPresent() ? new ReadingTaken(row.get().reading(), row.get().angle_deg()) : EndOfInput.END_OF_INPUT;
    }

    @Override
    public LengthUnit unit() {
        return csv.unit();
    }

    @Override
    public double resolution_mm() {
        return csv.resolution_mm();
    }

    @Override
    public boolean hasMarks() {
        return csv.hasMarks();
    }

    @Override
    public boolean hasAngles() {
        return csv.hasAngles();
    }

    @Override
    public void close() {
        try {
            csv.close();
        } catch (IOException e) {
            // It was only read.
        }
    }
}
