package sweepbook.cli.live;

import java.util.Locale;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.Event.Incident;
import sweepbook.acquisition.source.ReadingSource;

/** What a person is told of what a source brings beside readings; lengths are in the unit of its readings. */
final class EventWords {
    private final ReadingSource source;

    EventWords(ReadingSource source) {
        this.source = source;
    }

    /** With its time in front. */
    String timed(Incident incident) {
        return format("%.3f s: ", incident.time_s()) + of(incident);
    }

    String of(Incident incident) {
        if (incident instanceof Event.FrameDropped drop) {
            String bytes = drop.excerpt().isEmpty() ? "" : " '" + drop.excerpt() + "'";
            return "dropped" + bytes + ": " + drop.why();
        }
        if (incident instanceof Event.FramesDropped drops) {
            return format(
                    "%d more were dropped until %.3f s; check cable, speed and parity, and that no other program reads"
                            + " the same port",
                    drops.count(), drops.until_s());
        }
        if (incident instanceof Event.StatusShown word) {
            return "the indicator shows " + word.status().word() + " ('" + word.word() + "')";
        }
        if (incident instanceof Event.JumpAlone jump) {
            return "the reading of " + length(jump.reading_mm()) + " stands alone between " + length(jump.before_mm())
                    + " and " + length(jump.behind_mm()) + "; it is in the trace";
        }
        if (incident instanceof Event.CadenceFound found) {
            return format(
                    "readings come in bunches, up to %.1f ms late; from here on their times are on the device's own"
                            + " cadence, one each %.3f ms",
                    1e3 * found.delay_s(), 1e3 * found.cadence_s());
        }
        if (incident instanceof Event.CadenceLost) {
            return "readings no longer fit the cadence; from here on their times are as they arrive";
        }
        if (incident instanceof Event.NothingDecodes nothing) {
            return "bytes come but nothing decodes ('" + nothing.excerpt() + "'); check speed, parity and profile";
        }
        if (incident instanceof Event.Silence silence) {
            return format(
                    "nothing has come for %.0f s; is the indicator on, and does it send by itself?", silence.since_s());
        }
        if (incident instanceof Event.LinkLost loss) {
            return "link lost, trying to open it again; what was captured is safe: " + loss.why();
        }
        if (incident instanceof Event.LinkStillLost loss) {
            return "link still lost: " + loss.why();
        }
        Event.LinkBack back = (Event.LinkBack) incident;
        String elsewhere = back.link().equals(source.name()) ? "" : ", as " + back.link();
        return format("link back after %.1f s%s; readings in between are missing", back.lost_s(), elsewhere);
    }

    private String length(double length_mm) {
        return Figures.reading(length_mm, source.unit(), source.resolution_mm()) + " "
                + source.unit().symbol();
    }

    private static String format(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
