package sweepbook.acquisition.source;

import java.io.IOException;
import java.time.Duration;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * The readings of one indicator, live or recorded. One thread at a time asks for events; any thread may close.
 *
 * <p>A live source reads its link in a thread of its own and holds {@value WireSource#CAPACITY} events for whoever asks:
 * ask steadily, also while a person types, or the indicator's bytes wait in the port and are lost there in the end.
 */
public interface ReadingSource extends AutoCloseable {
    /** What the source is called in messages: its link as it was written. */
    String name();

    /**
     * The next event, in the order in which all of it was sent; waits for it as long as told.
     *
     * @throws IOException once nothing more can come: a link that stayed lost, a unit changed in mid-trace, a faulty
     *     file; every later call throws it again
     */
    Event next(Duration timeout) throws IOException;

    /** The unit in which the indicator shows its readings; known for certain after the first reading. */
    LengthUnit unit();

    /** Step of the display in millimetres, NaN where nobody says; known for certain after the first reading. */
    double resolution_mm();

    /** Whether readings can carry witness marks. */
    boolean hasMarks();

    /** Whether readings come with the angle at which the part stood. */
    default boolean hasAngles() {
        return false;
    }

    @Override
    void close();
}
