package sweepbook.cli.book;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;

/** One thing that happened, as it goes on record; a book is the sum of its events. */
public sealed interface BookEvent {
    /**
     * The first event of a book.
     *
     * @param planText the plan's JSON, whole
     * @param profile name of the indicator profile
     * @param person who measures
     * @param remark temperature and whatever else the person wants on record
     */
    record Begun(String version, String planText, String profile, String person, String remark) implements BookEvent {}

    /** Work went on after a pause, a quit or a crash. */
    record Resumed(String version, String profile, String person, String remark) implements BookEvent {}

    /**
     * A touch was begun.
     *
     * @param attempt counts all attempts of the book from 1
     * @param touch counts the touches of the offset from 0
     */
    record AttemptBegun(int attempt, String offset, int touch, String link, LengthUnit unit, double resolution_mm)
            implements BookEvent {}

    /** What the indicator sent. */
    record Received(int attempt, List<Reading> readings) implements BookEvent {
        public Received {
            readings = List.copyOf(readings);
        }
    }

    /**
     * What another indicator sent meanwhile; it is on record beside the touch and decides nothing.
     *
     * @param indicator what the person calls it
     */
    record Beside(int attempt, String indicator, LengthUnit unit, double resolution_mm, List<Reading> readings)
            implements BookEvent {
        public Beside {
            readings = List.copyOf(readings);
        }
    }

    /** Something other than a reading: a damaged frame, a status word, the link lost or back. */
    record Incident(int attempt, double time_s, String what) implements BookEvent {}

    /** What was typed for a position, and what became of it. */
    record Typed(int attempt, Moment moment, String text, Fate fate, String why) implements BookEvent {}

    /** The attempt counts. */
    record Kept(int attempt) implements BookEvent {}

    /** The attempt does not count, and why; its readings stay. */
    record SetAside(int attempt, String why) implements BookEvent {}

    /** The touch is left out for now. */
    record Skipped(String offset, int touch) implements BookEvent {}

    /** A touch that was left out is to be made after all. */
    record TakenUp(String offset, int touch) implements BookEvent {}

    /** The person left. */
    record Left() implements BookEvent {}

    /** Which position it is. */
    enum Moment {
        /** On the crest, before the jog. */
        ON_CREST,
        /** Of the axis of the travel. */
        ON_TRAVEL,
        AT_THE_END
    }

    /** What became of a typed text. */
    enum Fate {
        TAKEN,
        /** Taken against a doubt. */
        INSISTED,
        DOUBTED,
        REFUSED,
        /** Taken before; does not count any more. */
        WITHDRAWN
    }
}
