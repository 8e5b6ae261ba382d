package sweepbook.cli.live;

import java.util.Locale;
import sweepbook.acquisition.source.Event;

/** What a person is told of an event that is no reading. */
public final class EventWords {
    private EventWords() {}

    public static String of(Event event) {
        if (event instanceof Event.FrameDropped drop) {
            String bytes = drop.excerpt().isEmpty() ? "" : " '" + drop.excerpt() + "'";
            return at(drop.time_s()) + "dropped" + bytes + ": " + drop.why();
        }
        if (event instanceof Event.StatusShown word) {
            return at(word.time_s()) + "the indicator shows " + word.status().word() + " ('" + word.word() + "')";
        }
        if (event instanceof Event.JumpAlone jump) {
            return at(jump.time_s())
                    + String.format(
                            Locale.ROOT,
                            "the reading of %.4f mm stands alone between %.4f mm and %.4f mm; it is in the trace",
                            jump.reading_mm(),
                            jump.before_mm(),
                            jump.behind_mm());
        }
        if (event instanceof Event.CadenceFound found) {
            return at(found.time_s())
                    + String.format(
                            Locale.ROOT,
                            "readings come in bunches, up to %.1f ms late; from here on their times are on the device's own"
                                    + " cadence, one each %.3f ms",
                            1e3 * found.delay_s(),
                            1e3 * found.cadence_s());
        }
        if (event instanceof Event.CadenceLost lost) {
            return at(lost.time_s())
                    + "readings no longer fit the cadence; from here on their times are as they arrive";
        }
        if (event instanceof Event.NothingDecodes nothing) {
            return at(nothing.time_s()) + "bytes come but nothing decodes ('" + nothing.excerpt()
                    + "'); check speed, parity and profile";
        }
        if (event instanceof Event.LinkLost loss) {
            return at(loss.time_s()) + "link lost, trying to open it again: " + loss.why();
        }
        if (event instanceof Event.LinkBack back) {
            return at(back.time_s())
                    + String.format(
                            Locale.ROOT, "link back after %.1f s; readings in between are missing", back.lost_s());
        }
        return event.toString();
    }

    private static String at(double time_s) {
        return String.format(Locale.ROOT, "%.3f s: ", time_s);
    }
}
