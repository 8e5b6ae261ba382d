package sweepbook.cli.live;

import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
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
        return new LiveView(
                reading(unit, resolution_mm),
                cueOfLink().orElse(Cue.of("ENTER")),
                trouble.orElse("Enter when ready"),
                0,
                "",
                health());
    }

    LiveView view(TouchCapture capture, Question question) {
        Guidance guidance = Guidance.of(capture, question);
        return new LiveView(
                reading(capture.unit(), capture.resolution_mm()),
                cueOfLink().orElse(guidance.cue()),
                trouble.orElse(guidance.words()),
                capture.now().passes(),
                Summary.soFar(capture),
                health());
    }

    private Optional<Cue> cueOfLink() {
        return dead ? Optional.of(Cue.calling("NO LINK")) : trouble.map(why -> Cue.calling("CHECK"));
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
