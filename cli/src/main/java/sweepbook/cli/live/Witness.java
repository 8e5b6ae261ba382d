package sweepbook.cli.live;

import java.io.IOException;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.TraceCsvWriter.Beside;

/** What is told of the readings while they are recorded: which of them a mark passes, or at which angle the part stands. */
public interface Witness {
    /** Takes the rows that are complete. */
    interface Rows {
        /** @param angle_deg NaN where rows hold no angles */
        void row(Reading reading, double angle_deg) throws IOException;
    }

    /** What the rows hold beside time and reading. */
    Beside beside();

    /** A reading has come. */
    void take(ReadingTaken taken, double now_s, Rows rows) throws IOException;

    /** No more will come. */
    default void end(Rows rows) throws IOException {}

    /** Whether all is told, so that recording may end. */
    default boolean isDone() {
        return false;
    }

    /** A few words for the status line. */
    default String state() {
        return "";
    }

    /** Nobody tells anything; the readings may carry angles or marks of their own. */
    static Witness none(ReadingSource source) {
        return new Witness() {
            @Override
            public Beside beside() {
                return source.hasAngles() ? Beside.ANGLES : source.hasMarks() ? Beside.MARKS : Beside.NOTHING;
            }

            @Override
            public void take(ReadingTaken taken, double now_s, Rows rows) throws IOException {
                rows.row(taken.reading(), taken.angle_deg());
            }
        };
    }
}
