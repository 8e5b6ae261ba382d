package sweepbook.cli.live;

import java.io.IOException;
import java.util.Optional;

/** Whoever measures: reads what is told and types answers, at a terminal, through a file, or in a demonstration. */
public interface Person extends AutoCloseable {
    /** What is waited for when the person is asked whether anything was typed. */
    enum Question {
        /** Everything is clear and in place: Enter begins the touch. */
        READY,
        /** The sweep goes on; nothing has to be typed. */
        SWEEPING,
        /** The position on the crest, before the jog. */
        POSITION_ON_CREST,
        /** Where on the travel the touch was made. */
        POSITION_ON_TRAVEL,
        /** The position at the end. */
        POSITION_AT_THE_END
    }

    /** A line that stays. */
    void tell(String line);

    /** What is going on, replaced by the next. */
    void show(LiveView view);

    /** A line that was typed, if there is one; waits a moment at most. */
    Optional<String> typed(Question question) throws IOException;

    /** What was typed last cannot be taken as it stands. */
    void objection(String why) throws IOException;

    @Override
    void close();
}
