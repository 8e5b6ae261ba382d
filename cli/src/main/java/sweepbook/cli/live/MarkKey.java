package sweepbook.cli.live;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.function.Supplier;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.TraceCsvWriter.Beside;

/**
 * Enter tells that the witness mark passes: the reading nearest to the key press carries it. A reading is held back until
 * the next has come. Used by one thread.
 */
public final class MarkKey implements Witness {
    private final Supplier<Optional<TypedLines.Line>> typed;
    private final Deque<Double> presses_s = new ArrayDeque<>();
    private Reading held;
    private double heldAt_s;
    private int marks;

    public MarkKey(Supplier<Optional<TypedLines.Line>> typed) {
        this.typed = typed;
    }

    @Override
    public Beside beside() {
        return Beside.MARKS;
    }

    @Override
    public void take(ReadingTaken taken, double now_s, Rows rows) throws IOException {
        collect();
        if (held == null) {
            // Whatever was pressed before the first reading marks none.
            presses_s.clear();
        } else {
            write((heldAt_s + now_s) / 2, rows);
        }
        held = taken.reading();
        heldAt_s = now_s;
    }

    private void collect() {
        for (Optional<TypedLines.Line> line = typed.get(); line.isPresent(); line = typed.get()) {
            if (!line.get().isEnd()) {
                presses_s.add(line.get().at_s());
            }
        }
    }

    private void write(double until_s, Rows rows) throws IOException {
        boolean marked = false;
        while (!presses_s.isEmpty() && presses_s.peek() <= until_s) {
            presses_s.poll();
            marked = true;
        }
        marks += marked ? 1 : 0;
        rows.row(new Reading(held.time_s(), held.reading_mm(), marked), Double.NaN);
    }

    @Override
    public void end(Rows rows) throws IOException {
        if (held != null) {
            collect();
            write(Double.POSITIVE_INFINITY, rows);
            held = null;
        }
    }

    @Override
    public String state() {
        return marks + (marks == 1 ? " mark" : " marks") + " (Enter as the mark passes, Ctrl-C to end)";
    }
}
