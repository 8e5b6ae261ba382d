package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.Stand;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.Book.Station;
import sweepbook.cli.plan.Cautions;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.TouchSeries;

/** What a person is told in words before and between touches. */
final class Announcement {
    private Announcement() {}

    static List<String> ofJob(Book book) {
        Plan plan = book.plan();
        List<String> lines = new ArrayList<>();
        lines.add(plan.plan() + " on " + plan.machine().name() + " ("
                + plan.machine().serial() + ")");
        lines.add("Indicator: " + plan.indicator().description() + ", "
                + plan.indicator().serial());
        lines.add(Cautions.DEFERENCE);
        lines.add("Type redo, undo, skip, quit or help at any time.");
        return lines;
    }

    static List<String> ofTouch(Station station) {
        PlannedOffset offset = station.offset();
        List<String> lines = new ArrayList<>();
        lines.add("");
        lines.add("== " + offset.title() + " (" + offset.name() + "), touch " + (station.touch() + 1) + " of "
                + offset.touches().size());
        Cautions.BEFORE_A_MOVE.forEach(caution -> lines.add("   ! " + caution));
        lines.add("   Set up: " + station.planned().setUp());
        lines.add("   Touch:  " + feature(station.planned().feature())
                + station.planned().spot().map(spot -> ", marked spot " + spot).orElse("") + ", " + offset.axis()
                + " going "
                + (offset.direction() == Direction.PLUS ? "plus" : "minus") + " presses the contact; the indicator "
                + (offset.stand() == Stand.ON_TABLE ? "stands on the table" : "rides on the machine"));
        Cautions.NEAR_CONTACT.forEach(caution -> lines.add("   ! " + caution));
        lines.add("   Then:   " + todo(station));
        station.offset()
                .method()
                .travelAxis()
                .ifPresent(axis -> lines.add("   Type:   the position of " + axis
                        + ", along which it travels, then that of " + offset.axis() + "."));
        lines.add("   Enter when everything is clear and in place.");
        return lines;
    }

    private static String feature(Feature feature) {
        return feature.name() + (feature instanceof Feature.Round ? " (round)" : " (flat)");
    }

    private static String todo(Station station) {
        if (station.offset().habit() == TouchSeries.Habit.HOLD_STILL) {
            return "let the contact stand on it, hold still.";
        }
        if (station.planned().feature() instanceof Feature.Flat) {
            return "jog " + station.offset().axis() + " to zero click by click, hold still.";
        }
        String sweep = "sweep along " + station.planned().sweep() + " a few times over the high spot";
        return switch (station.offset().habit()) {
            case SWEEP_ONLY -> sweep + ", " + station.offset().axis() + " standing still.";
            case STOP_ON_CREST -> sweep + ", stop on it and hold still.";
            case JOG_TO_ZERO ->
                sweep + ", stop on it"
                        + (station.offset().positions() == TouchSeries.Positions.ON_CREST_AND_AT_THE_END
                                ? " and type " + station.offset().axis()
                                : "")
                        + ", jog " + station.offset().axis() + " to zero click by click, hold still.";
            case HOLD_STILL -> throw new IllegalStateException("a round feature is swept");
        };
    }

    static List<String> help() {
        return List.of(
                "   Enter        begin the touch; during it: say what has been found so far",
                "   a number     the position that the machine shows, as it shows it",
                "   a number!    the same, against a doubt",
                "   redo         set this attempt aside and make the touch again",
                "   undo         take the last deed back: a noted position, else the touch kept or skipped last",
                "   skip         leave this touch out for now",
                "   quit         leave; the same command goes on where you left");
    }

    static List<String> ofEnd(int leftOut) {
        List<String> lines = new ArrayList<>();
        lines.add("");
        lines.add(
                leftOut == 0
                        ? "All touches of the plan are made."
                        : leftOut + " touches were left out; the same command takes them up.");
        Cautions.BEFORE_TYPING_IN.forEach(caution -> lines.add("   ! " + caution));
        return lines;
    }
}
