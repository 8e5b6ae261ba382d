package sweepbook.cli.live;

import java.io.IOException;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.trace.TraceCsvWriter.Beside;

/**
 * The part stands at angles that are typed: after each, so many readings are taken at it; those that come while the part
 * is turned on are not. Used by one thread.
 */
public final class TypedAngles implements Witness {
    private static final int EACH = 10;
    private static final double MOST_DEG = 36_000;

    private final Supplier<Optional<TypedLines.Line>> typed;
    private final Consumer<String> tell;
    private double angle_deg = Double.NaN;
    private int taken;
    private int stations;
    private boolean done;

    /** @param tell takes a line for the person */
    public TypedAngles(Supplier<Optional<TypedLines.Line>> typed, Consumer<String> tell) {
        this.typed = typed;
        this.tell = tell;
    }

    @Override
    public Beside beside() {
        return Beside.ANGLES;
    }

    @Override
    public void take(ReadingTaken come, double now_s, Rows rows) throws IOException {
        if (taken == 0 || taken == EACH) {
            typed.get().ifPresent(this::read);
        }
        if (!Double.isNaN(angle_deg) && !done) {
            rows.row(come.reading(), angle_deg);
            if (++taken == EACH) {
                stations++;
                tell.accept(angle_deg + " degrees: " + EACH + " readings taken; turn on, let it rest, type the next"
                        + " angle (an empty line ends)");
                angle_deg = Double.NaN;
            }
        }
    }

    private void read(TypedLines.Line line) {
        if (line.isEnd() || line.text().isEmpty()) {
            done = true;
            return;
        }
        try {
            double typed_deg = Double.parseDouble(line.text().replace(',', '.'));
            if (Math.abs(typed_deg) <= MOST_DEG) {
                angle_deg = typed_deg;
                taken = 0;
                return;
            }
        } catch (NumberFormatException e) {
            // Told below, like a number without an end.
        }
        tell.accept("'" + line.text() + "' is no angle in degrees; type it again, such as 30 or 112.5");
    }

    @Override
    public boolean isDone() {
        return done;
    }

    @Override
    public String state() {
        return stations
                + (stations == 1 ? " station" : " stations")
                + (Double.isNaN(angle_deg) ? ": type the angle the part stands at" : ": hold still");
    }
}
