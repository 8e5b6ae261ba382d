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
    private boolean lost;
    private long dropped;
    private double countedFrom_s = Double.NaN;
    private int counted;
    private double rate_per_s = Double.NaN;

    /** Takes note of an event; what has to go on record beside the readings is given back in words. */
    Optional<String> take(Event event) {
        if (event instanceof Event.ReadingTaken taken) {
            last = Optional.of(taken.reading());
            count(taken.reading().time_s());
            return Optional.empty();
        }
        if (event instanceof Event.FrameDropped frame) {
            dropped++;
            return Optional.of("dropped '" + frame.excerpt() + "': " + frame.why());
        }
        if (event instanceof Event.StatusShown status) {
            return Optional.of("the indicator says " + status.status().word() + " ('" + status.word() + "')");
        }
        if (event instanceof Event.NothingDecodes nothing) {
            return Optional.of(
                    "bytes come, but none is a reading ('" + nothing.excerpt() + "'): wrong speed or profile?");
        }
        if (event instanceof Event.LinkLost gone) {
            lost = true;
            return Optional.of(
                    "link lost (" + gone.why() + "); what was captured is safe, waiting for it to come back");
        }
        if (event instanceof Event.LinkBack back) {
            lost = false;
            return Optional.of(String.format(Locale.ROOT, "link back after %.1f s", back.lost_s()));
        }
        if (event instanceof Event.JumpAlone
                || event instanceof Event.CadenceFound
                || event instanceof Event.CadenceLost) {
            return Optional.of(EventWords.of(event));
        }
        return Optional.empty();
    }

    /** A dropped frame is counted on the live line, jumps and times belong on the record; the rest is worth a line. */
    static boolean isWorthTelling(Event event) {
        return event instanceof Event.StatusShown
                || event instanceof Event.NothingDecodes
                || event instanceof Event.LinkLost
                || event instanceof Event.LinkBack;
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

    /** Time of the last reading, in seconds; 0 before the first. */
    double last_s() {
        return last.map(Reading::time_s).orElse(0.0);
    }

    LiveView idleView(LengthUnit unit, double resolution_mm) {
        return new LiveView(reading(unit, resolution_mm), lost ? "link lost" : "Enter when ready", 0, "", health());
    }

    LiveView view(TouchCapture capture, Question question) {
        SweepNow now = capture.now();
        return new LiveView(
                reading(capture.unit(), capture.resolution_mm()),
                lost ? "link lost" : state(capture, now, question),
                now.passes(),
                Summary.soFar(capture),
                health());
    }

    private static String state(TouchCapture capture, SweepNow now, Question question) {
        String axis = capture.station().offset().axis().name();
        if (question == Question.POSITION_ON_CREST) {
            return "stable: type the position of " + axis + " on the crest, before the jog (Enter: not noted)";
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
