package sweepbook.cli.report;

import java.util.List;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.plan.PlannedOffset.TableEntry;

/** What to type into the controller's table: once large for the technician, once as a table for the record. */
final class EntrySection {
    private final Page page;
    private final Markup html;

    EntrySection(Page page) {
        this.page = page;
        this.html = page.html();
    }

    void write(List<OffsetResult> results) {
        html.open("section", "aria-labelledby", "entries").element("h2", "The controller's table", "id", "entries");
        html.open("div", "class", "entries");
        for (int i = 0; i < results.size(); i++) {
            card(results.get(i), i + 1);
        }
        html.close();
        Table table = new Table(
                html,
                "All offsets",
                List.of(
                        "Offset",
                        "Axis",
                        "Measured",
                        "Entry before",
                        "Entry after",
                        "Change",
                        "Present entry against its tolerance"));
        results.forEach(result -> row(table, result));
        table.close();
        html.close();
    }

    private void card(OffsetResult result, int number) {
        TableEntry entry = result.planned().entry();
        EntryUnit unit = entry.convention().unit();
        html.open("article", "class", "entry");
        html.open("h3")
                .element("a", result.planned().title(), "href", "#offset-" + number)
                .close();
        html.element("p", entry.label(), "class", "label");
        if (result.result() instanceof Finding.NotDetermined<OffsetResult.Outcome> not) {
            html.element("p", "not determined", "class", "after none");
            html.element("p", not.reason());
        } else {
            OffsetResult.Outcome outcome = result.result().asOptional().orElseThrow();
            String after = outcome.entry().after().toPlainString();
            html.open("p", "class", "after", "style", "--characters: " + after.length())
                    .text(after)
                    .element("span", " " + unit.symbol(), "class", "unit")
                    .close();
            html.element(
                    "p",
                    "known to " + Figures.plusMinusU95(outcome.entry().entry().combined(), unit) + " (95\u00a0%)",
                    "class",
                    "label");
            html.element(
                    "p",
                    "now " + outcome.entry().before().toPlainString() + " " + unit.symbol() + ". " + advice(outcome));
            outcome.decision()
                    .ifPresent(decision -> html.element(
                            "p",
                            "Against its tolerance the present entry "
                                    + decision.verdict().words() + "."));
            if (!outcome.warnings().isEmpty()) {
                html.element("p", "Remarks to read first: " + outcome.warnings().size() + ", below.", "class", "look");
            }
        }
        html.close();
    }

    private static String advice(OffsetResult.Outcome outcome) {
        return outcome.change().isSignificant()
                ? "The entry has changed by more than chance."
                : "The change is no more than chance explains: the entry may stay as it is.";
    }

    private static void row(Table table, OffsetResult result) {
        EntryUnit unit = result.planned().entry().convention().unit();
        String axis = result.planned().axis().name();
        String before = result.planned().entry().before().toPlainString() + " " + unit.symbol();
        if (result.result() instanceof Finding.NotDetermined<OffsetResult.Outcome> not) {
            table.row(
                    result.planned().name(),
                    axis,
                    "not determined: " + not.reason(),
                    before,
                    "\u2013",
                    "\u2013",
                    "\u2013");
            return;
        }
        OffsetResult.Outcome outcome = result.result().asOptional().orElseThrow();
        table.row(
                result.planned().name(),
                axis,
                Figures.withU95(outcome.offset().combined(), unit),
                before,
                outcome.entry().after().toPlainString() + " " + unit.symbol(),
                Figures.withU95(outcome.change().difference(), unit)
                        + (outcome.change().isSignificant() ? ", more than chance" : ", no more than chance"),
                outcome.decision().map(EntrySection::inWords).orElse("none planned"));
    }

    static String inWords(Decision decision) {
        return decision.verdict().words() + " (probability " + percent(decision.probability()) + " within; guard band "
                + decision.rule().label() + ")"
                + (decision.canConform()
                        ? ""
                        : "; no result could prove it, the tolerance is too narrow for this uncertainty");
    }

    private static String percent(double probability) {
        if (probability > 0.999) {
            return "above 99.9 %";
        }
        return probability < 0.001 ? "below 0.1 %" : Figures.plain(100 * probability, 1) + " %";
    }
}
