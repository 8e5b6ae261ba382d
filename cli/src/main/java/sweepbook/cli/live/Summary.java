package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.JogClicks;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.LengthWords;
import sweepbook.cli.plan.TouchSeries.Habit;
import sweepbook.cli.plan.TypedPosition;

/** Words what a touch has shown. */
final class Summary {
    private Summary() {}

    /** While it goes on; nobody passes over a flat feature. */
    static String soFar(TouchCapture capture) {
        SweepNow now = capture.now();
        List<String> words = new ArrayList<>();
        if (capture.station().planned().feature() instanceof Feature.Round) {
            words.add(now.passes() + (now.passes() == 1 ? " pass" : " passes"));
            now.highSpot_mm()
                    .ifPresent(high -> words.add(
                            "high spot about " + Figures.reading(high, capture.unit(), capture.resolution_mm())));
        }
        if (now.clicks() > 0) {
            words.add(now.clicks() + (now.clicks() == 1 ? " click" : " clicks"));
        }
        return String.join(", ", words);
    }

    /** Why the touch cannot be used as it stands; empty where it can. */
    static Optional<String> uselessBecause(TouchCapture capture, SweepFindings findings) {
        List<Finding<?>> needed = new ArrayList<>();
        if (capture.station().planned().feature() instanceof Feature.Flat) {
            needed.add(findings.stableZero());
        } else {
            needed.add(findings.highSpot());
            if (capture.station().offset().habit() == Habit.JOG_TO_ZERO) {
                needed.add(findings.stableZero());
                needed.add(findings.crestMiss());
            }
            needed.add(findings.readingAtZero());
        }
        return needed.stream()
                .flatMap(finding ->
                        finding instanceof Finding.NotDetermined<?> not ? Stream.of(not.reason()) : Stream.empty())
                .findFirst();
    }

    /** When it is kept. */
    static List<String> of(TouchCapture capture, SweepFindings findings, TypedPosition position) {
        LengthUnit unit = capture.unit();
        double step_mm = capture.resolution_mm();
        List<String> lines = new ArrayList<>();
        findings.highSpot()
                .asOptional()
                .ifPresent(high -> lines.add("   high spot   " + Figures.plusMinus(high, unit, step_mm) + " from "
                        + findings.passes().size() + " passes"));
        findings.crestMiss()
                .asOptional()
                .ifPresent(miss -> lines.add("   crest miss  " + Figures.plusMinus(miss, unit, step_mm)));
        if (findings.clicks().count() > 0) {
            lines.add("   jog         " + clicks(findings.clicks(), unit, step_mm));
        }
        findings.stableZero()
                .asOptional()
                .map(StableZero::level)
                .ifPresent(level -> lines.add("   stable zero " + Figures.plusMinus(level, unit, step_mm)));
        LengthWords.in(unit, findings.warnings()).forEach(warning -> lines.add("   ! " + warning));
        lines.add("   kept at " + capture.station().offset().axis() + " = " + position.value() + " "
                + position.unit().symbol());
        return lines;
    }

    private static String clicks(JogClicks clicks, LengthUnit unit, double step_mm) {
        return clicks.count() + (clicks.count() == 1 ? " click, " : " clicks, ")
                + Figures.reading(clicks.travel_mm(), unit, step_mm) + " " + unit.symbol();
    }
}
