package sweepbook.cli.command;

import java.io.PrintWriter;
import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.report.RunoutReport;
import sweepbook.cli.report.Surface;

/** Several traces, a line each. */
final class RunoutTable {
    private RunoutTable() {}

    static void print(PrintWriter out, List<RunoutReport.Entry> entries, RunoutSettings settings, Surface surface) {
        int width = entries.stream().mapToInt(e -> e.name().length()).max().orElse(4);
        String form = "%-" + Math.max(4, width) + "s %5s  %-25s  %-25s  %-25s  %s";
        line(out, form, "file", "turns", surface.movement(), surface.first(), surface.form(settings.circle()), "");
        for (RunoutReport.Entry entry : entries) {
            if (entry.runout() instanceof Finding.NotDetermined<Runout> not) {
                out.printf("%-" + Math.max(4, width) + "s  not determined: %s%n", entry.name(), not.reason());
                continue;
            }
            Runout runout = entry.runout().asOptional().orElseThrow();
            line(
                    out,
                    form,
                    entry.name(),
                    runout.turns(),
                    cell(runout.fim(), entry.unit()),
                    cell(runout.eccentricity(), entry.unit()),
                    cell(runout.outOfRoundness().get(settings.circle()), entry.unit()),
                    entry.decision().orElse(""));
        }
        out.println("lengths with U95; the figures of one file in full: name it alone, or --json, --csv, --report");
    }

    private static void line(PrintWriter out, String form, Object... cells) {
        out.println(String.format(form, cells).stripTrailing());
    }

    private static String cell(Estimate e, LengthUnit unit) {
        int decimals = RunoutText.decimals(unit, e);
        return RunoutText.number(unit, e.value(), decimals) + " \u00b1 " + RunoutText.number(unit, e.u95(), decimals)
                + " " + unit.symbol();
    }
}
