package sweepbook.cli.command;

import java.io.PrintWriter;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.plan.Measurement.Beside;

/** The offsets as a person reads them: what to type into the controller, and how sure it is. */
final class OffsetTable {
    private static final String ROW = "%-28s %-4s %24s  %14s %14s  %s%n";

    private OffsetTable() {}

    static void print(PrintWriter out, List<OffsetResult> results, LengthUnit shown) {
        out.printf(ROW, "offset", "axis", "measured", "entry now", "new entry", "the entry now");
        for (OffsetResult result : results) {
            EntryUnit unit = result.planned().entry().convention().unit();
            BigDecimal before = result.planned().entry().before();
            if (result.result() instanceof Finding.NotDetermined<OffsetResult.Outcome> not) {
                out.printf(
                        ROW,
                        result.planned().name(),
                        result.planned().axis(),
                        "-",
                        before,
                        "-",
                        "not determined: " + not.reason());
                continue;
            }
            OffsetResult.Outcome outcome = result.result().asOptional().orElseThrow();
            out.printf(
                    ROW,
                    result.planned().name(),
                    result.planned().axis(),
                    measured(outcome.offset().combined(), unit, before.scale()),
                    before,
                    outcome.entry().after(),
                    verdict(outcome));
            outcome.besides().forEach(beside -> out.println("    " + beside.what() + " " + found(beside, shown)));
            outcome.warnings().forEach(warning -> out.println("    ! " + warning));
        }
    }

    private static String measured(Estimate offset, EntryUnit unit, int decimals) {
        String figure = "%." + (decimals + 1) + "f";
        return String.format(
                Locale.ROOT,
                figure + " \u00b1 " + figure + " %s",
                unit.fromInside(offset.value()),
                unit.fromInside(offset.u95()),
                unit.symbol());
    }

    private static String found(Beside beside, LengthUnit shown) {
        return switch (beside.quantity()) {
            case LENGTH -> measured(beside.found(), EntryUnit.of(shown.symbol()), shown == LengthUnit.MM ? 3 : 4);
            case ANGLE -> measured(beside.found(), EntryUnit.DEG, 3);
            case RATIO ->
                String.format(
                        Locale.ROOT,
                        "%.5f \u00b1 %.5f",
                        beside.found().value(),
                        beside.found().u95());
        };
    }

    private static String verdict(OffsetResult.Outcome outcome) {
        String tolerance = outcome.decision()
                .map(Decision::verdict)
                .map(verdict -> verdict.words() + ", ")
                .orElse("");
        return tolerance + (outcome.change().isSignificant() ? "differs" : "differs by no more than chance");
    }
}
