package sweepbook.cli.live;

import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.cli.live.Person.Question;

/** Keeps an eye on the link and words what a person sees of it. */
final class LinkWatch {
    private static final double RATE_OVER_S = 2;

    private Optional<Reading> last = Optional.empty();
    private Optional<String> trouble = Optional.empty();
    private boolean dead;
    private long dropped;
    private double countedFrom_s = Double.NaN;
    private int counted;
    private double rate_per_s = Double.NaN;

    /** Takes note of an event. */
    void take(Event event) {
        if (event instanceof Event.ReadingTaken taken) {
            last = Optional.of(taken.reading());
            trouble = Optional.empty();
            dead = false;
            count(taken.reading().time_s());
        } else if (event instanceof Event.FrameDropped) {
            dropped++;
        } else if (event instanceof Event.FramesDropped more) {
            dropped += more.count();
        } else if (event instanceof Event.StatusShown shown) {
            trouble = Optional.of("the indicator shows " + shown.status().word());
        } else if (event instanceof Event.NothingDecodes) {
            trouble = Optional.of("bytes come, but no readings");
        } else if (event instanceof Event.Silence) {
            died("nothing comes from the indicator");
        } else if (event instanceof Event.LinkLost) {
            died("link lost");
        } else if (event instanceof Event.LinkBack) {
            trouble = Optional.of("link back, no reading yet");
        }
    }

    private void died(String why) {
        trouble = Optional.of(why);
        dead = true;
        // What it showed last is not what it shows now.
        last = Optional.empty();
    }

    /** What keeps readings from coming, in a few words. */
    Optional<String> trouble() {
        return trouble;
    }

    /** Whether the last reading says nothing about now: the link was lost or has fallen silent since. */
    boolean isDead() {
        return dead;
    }

    /** How many frames were no readings to be trusted. */
    long dropped() {
        return dropped;
    }

    /** A dropped frame is counted on the live line, jumps and times belong on the record; the rest is worth a line. */
    static boolean isWorthTelling(Event.Incident incident) {
        return !(incident instanceof Event.FrameDropped
                || incident instanceof Event.FramesDropped
                || incident instanceof Event.JumpAlone
                || incident instanceof Event.CadenceFound
                || incident instanceof Event.CadenceLost);
    }

    private void count(double time_s) {
        if (Double.isNaN(countedFrom_s)) {
            countedFrom_s = time_s;
        }
        counted++;
        if (time_s - countedFrom_s >= RATE_OVER_S) {
            rate_per_s = counted / (time_s - countedFrom_s);
            countedFrom_s = time_s;
            counted = 0;
        }
    }

    LiveView idleView(LengthUnit unit, double resolution_mm) {
        return new LiveView(reading(unit, resolution_mm), trouble.orElse("Enter when ready"), 0, "", health());
    }

    LiveView view(TouchCapture capture, Question question) {
        SweepNow now = capture.now();
        return new LiveView(
                reading(capture.unit(), capture.resolution_mm()),
                trouble.orElseGet(() -> state(capture, now, question)),
                now.passes(),
                Summary.soFar(capture),
                health());
    }

    private static String state(TouchCapture capture, SweepNow now, Question question) {
        String axis = capture.station().offset().axis().name();
        if (question == Question.POSITION_ON_CREST) {
            return "stable: type " + axis + " as it was on the crest (Enter: not noted)";
        }
        if (question == Question.POSITION_ON_TRAVEL) {
            return "stable: type the position of "
                    + capture.station().offset().method().travelAxis().orElseThrow() + ", along which it travels";
        }
        if (question == Question.POSITION_AT_THE_END) {
            return "stable: type the position of " + axis;
        }
        return switch (now.phase()) {
            case NO_READING -> "no reading yet";
            case MOVING -> "moving";
            case ON_CREST, SETTLING -> "hold still";
            case STABLE ->
                now.passes() == 0 && capture.station().planned().feature() instanceof Feature.Round
                        ? "sweep now"
                        : "stable: go on, or type the position of " + axis;
        };
    }

    private String reading(LengthUnit unit, double resolution_mm) {
        return last.map(reading -> Figures.reading(reading.reading_mm(), unit, resolution_mm))
                .orElse("-");
    }

    private String health() {
        String rate = Double.isNaN(rate_per_s) ? "" : String.format(Locale.ROOT, "%.0f readings/s, ", rate_per_s);
        return rate + dropped + " frames dropped";
    }
}
