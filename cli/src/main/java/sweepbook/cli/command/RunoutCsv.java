package sweepbook.cli.command;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.report.RunoutReport;
import sweepbook.cli.report.Surface;

/** Runouts as rows of a CSV table that a spreadsheet opens without taking any cell for a formula. */
final class RunoutCsv {
    private static final List<String> HEAD = List.of(
            "file",
            "unit",
            "turns",
            "fim",
            "fim_u95",
            "fim_raw",
            "fim_raw_u95",
            "eccentricity",
            "eccentricity_u95",
            "high_spot_angle_deg",
            "out_of_roundness",
            "out_of_roundness_u95",
            "out_of_roundness_method",
            "turn_repeatability",
            "decision",
            "remarks");

    private RunoutCsv() {}

    static void head(PrintWriter out) {
        out.println(String.join(",", HEAD));
    }

    static void row(PrintWriter out, RunoutReport.Entry entry, RunoutSettings settings, Surface surface) {
        Finding<Runout> finding = entry.runout();
        LengthUnit unit = entry.unit();
        Optional<Runout> runout = finding.asOptional();
        List<String> cells = new ArrayList<>();
        cells.add(text(entry.file().path().toString()));
        cells.add(unit.symbol());
        cells.add(runout.map(r -> Integer.toString(r.turns())).orElse(""));
        estimate(cells, unit, runout.map(Runout::fim));
        estimate(cells, unit, runout.map(Runout::rawFim));
        estimate(cells, unit, runout.map(Runout::eccentricity));
        cells.add(runout.flatMap(r -> r.highSpotAngle_deg().asOptional())
                .map(a -> String.format(Locale.ROOT, "%.2f", a.value()))
                .orElse(""));
        estimate(cells, unit, runout.map(r -> r.outOfRoundness().get(settings.circle())));
        cells.add(text(surface.method(settings)));
        cells.add(runout.flatMap(r -> r.scatter().asOptional())
                .map(s -> number(unit.fromMm(s.repeatability().value())))
                .orElse(""));
        cells.add(text(entry.decision().orElse("")));
        cells.add(text(
                finding instanceof Finding.NotDetermined<Runout> not
                        ? not.reason()
                        : String.join("; ", runout.orElseThrow().warnings())));
        out.println(String.join(",", cells));
    }

    private static void estimate(List<String> cells, LengthUnit unit, Optional<Estimate> estimate) {
        cells.add(estimate.map(e -> number(unit.fromMm(e.value()))).orElse(""));
        cells.add(estimate.map(e -> number(unit.fromMm(e.u95()))).orElse(""));
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.7f", value);
    }

    /** A quoted cell; one that a spreadsheet could take for a formula begins with an apostrophe. */
    static String text(String words) {
        boolean formula = !words.isEmpty() && "=+-@\t\r\n|%".indexOf(words.charAt(0)) >= 0;
        return '"' + (formula ? "'" : "") + words.replace("\"", "\"\"").replaceAll("[\\r\\n]+", " ") + '"';
    }
}
