package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.trace.LengthUnit;

class EventWordsTest {
    private final EventWords words = new EventWords(new InchSource());

    /** Says what it is, and nothing else. */
    private static final class InchSource implements ReadingSource {
        @Override
        public String name() {
            return "serial:/dev/ttyUSB0";
        }

        @Override
        public Event next(Duration timeout) {
            return Event.EndOfInput.END_OF_INPUT;
        }

        @Override
        public LengthUnit unit() {
            return LengthUnit.IN;
        }

        @Override
        public double resolution_mm() {
            return LengthUnit.IN.toMm(0.0001);
        }

        @Override
        public boolean hasMarks() {
            return false;
        }

        @Override
        public void close() {}
    }

    @Test
    void lengthsAreInTheUnitOfTheJob() {
        Event.JumpAlone jump = new Event.JumpAlone(
                1.5, LengthUnit.IN.toMm(0.1234), LengthUnit.IN.toMm(0.001), LengthUnit.IN.toMm(0.0012));
        assertEquals(
                "1.500 s: the reading of +0.1234 in stands alone between +0.0010 in and +0.0012 in; it is in the trace",
                words.timed(jump));
    }

    @Test
    void aPortThatCameBackElsewhereIsNamed() {
        assertTrue(words.of(new Event.LinkBack(3, 1.2, "serial:/dev/ttyUSB1")).contains(", as serial:/dev/ttyUSB1;"));
        assertEquals(
                "link back after 1.2 s; readings in between are missing",
                words.of(new Event.LinkBack(3, 1.2, "serial:/dev/ttyUSB0")));
    }
}
