package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.trace.Reading;

class WitnessTest {
    private final Deque<TypedLines.Line> typed = new ArrayDeque<>();
    private final List<Reading> rows = new ArrayList<>();
    private final List<Double> angles_deg = new ArrayList<>();
    private final List<String> told = new ArrayList<>();

    private Optional<TypedLines.Line> next() {
        return Optional.ofNullable(typed.poll());
    }

    private void row(Reading reading, double angle_deg) {
        rows.add(reading);
        angles_deg.add(angle_deg);
    }

    private void readings(Witness witness, int from, int to) throws IOException {
        for (int i = from; i < to; i++) {
            witness.take(new ReadingTaken(new Reading(0.1 * i, i)), 0.1 * i, this::row);
        }
    }

    private List<Integer> marked() {
        List<Integer> marked = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).mark()) {
                marked.add(i);
            }
        }
        return marked;
    }

    @Test
    void theReadingNearestToTheKeyPressCarriesTheMark() throws IOException {
        MarkKey key = new MarkKey(this::next);
        readings(key, 0, 5);
        typed.add(new TypedLines.Line("", 0.44, false));
        readings(key, 5, 8);
        typed.add(new TypedLines.Line("", 0.76, false));
        readings(key, 8, 10);
        key.end(this::row);
        assertEquals(10, rows.size());
        assertEquals(List.of(4, 8), marked());
    }

    @Test
    void aPressBeforeTheFirstReadingMarksNone_andOneAfterTheLastMarksThat() throws IOException {
        MarkKey key = new MarkKey(this::next);
        typed.add(new TypedLines.Line("", -3, false));
        readings(key, 0, 3);
        typed.add(new TypedLines.Line("", 0.21, false));
        typed.add(new TypedLines.Line("", 5, true));
        key.end(this::row);
        assertEquals(List.of(2), marked());
    }

    @Test
    void readingsAreTakenOnlyWhileThePartStandsAtATypedAngle() throws IOException {
        TypedAngles angles = new TypedAngles(this::next, told::add);
        readings(angles, 0, 7);
        assertTrue(rows.isEmpty());
        typed.add(new TypedLines.Line("30", 0.7, false));
        readings(angles, 7, 30);
        assertEquals(10, rows.size());
        typed.add(new TypedLines.Line("sixty", 3, false));
        typed.add(new TypedLines.Line("62,5", 3, false));
        readings(angles, 30, 60);
        assertEquals(20, rows.size());
        assertEquals(30, angles_deg.get(9));
        assertEquals(62.5, angles_deg.get(10));
        assertTrue(told.stream().anyMatch(line -> line.contains("'sixty' is no angle")), told.toString());
        assertFalse(angles.isDone());
        typed.add(new TypedLines.Line("", 6, false));
        readings(angles, 60, 61);
        assertTrue(angles.isDone());
    }
}
