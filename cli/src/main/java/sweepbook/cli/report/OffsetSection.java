package sweepbook.cli.report;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.EntryConvention;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.offset.Stand;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.plan.PlannedOffset;

/** One offset: how it was measured, its touches, how well it is known. */
final class OffsetSection {
    private final Page page;
    private final Markup html;
    private final Book book;
    private final int number;

    OffsetSection(Page page, Book book, int number) {
        this.page = page;
        this.html = page.html();
        this.book = book;
        this.number = number;
    }

    void write(OffsetResult result) {
        PlannedOffset planned = result.planned();
        String id = "offset-" + number;
        html.open("section", "class", "offset", "aria-labelledby", id).element("h2", planned.title(), "id", id);
        EntryUnit unit = planned.entry().convention().unit();
        Page.Facts facts = new Page.Facts().add("Offset", planned.name());
        if (result.result() instanceof Finding.NotDetermined<OffsetResult.Outcome> not) {
            facts.add("Result", "not determined: " + not.reason());
        }
        result.result().asOptional().ifPresent(outcome -> facts.add(
                        "Result", Figures.withU95(outcome.offset().combined(), unit))
                .add(
                        "Entry",
                        outcome.entry().before().toPlainString() + " \u2192 "
                                + outcome.entry().after().toPlainString() + " " + unit.symbol() + ", "
                                + Figures.plusMinusU95(outcome.entry().entry().combined(), unit)
                                + " with its rounding"));
        result.result()
                .asOptional()
                .filter(outcome -> unit == EntryUnit.DEG)
                .ifPresent(outcome -> facts.add(
                        "The same angle", Figures.otherWays(outcome.offset().value())));
        LengthUnit shown = book.plan().machine().resolution().unit();
        result.result().asOptional().ifPresent(outcome -> outcome.besides()
                .forEach(beside -> facts.add(Figures.capitalised(beside.what()), Figures.withU95(beside, shown))));
        planned.tolerance()
                .ifPresent(tolerance ->
                        facts.add("Tolerance of the present entry", limits(tolerance, unit) + " off the measured one"));
        result.result()
                .asOptional()
                .flatMap(OffsetResult.Outcome::decision)
                .ifPresent(decision -> facts.add("The present entry", EntrySection.inWords(decision)));
        facts.add("Method", method(planned))
                .add("Entry convention", convention(planned.entry().convention()));
        page.facts(facts);
        result.result().asOptional().ifPresent(outcome -> page.warnings(outcome.ownWarnings()));
        if (planned.hasOwnTouches()) {
            TouchSection touches = new TouchSection(page, planned, book.plan().machine());
            result.touches().forEach(touches::write);
        } else {
            html.element("p", "Its touches are those of " + planned.series().madeFor() + "; they stand there.");
        }
        result.result().asOptional().ifPresent(outcome -> {
            new BudgetSection(html, unit).write("entry", outcome.entry().entry());
            residuals(outcome.residuals(), shown);
            html.element("h3", "What this measurement would not show").open("ul");
            Unnoticed.in(result).forEach(mistake -> html.element("li", mistake));
            html.close();
        });
        html.close();
    }

    /** Where there are touches to spare: how each fits the others. */
    private void residuals(List<Residual> residuals, LengthUnit shown) {
        if (residuals.isEmpty()) {
            return;
        }
        html.element("h3", "How the touches fit each other");
        Table table = new Table(
                html,
                "Least squares over all touches",
                List.of(
                        "Touch",
                        "Adjusted less measured",
                        "Standardised residual",
                        "Redundancy number",
                        "Least mistake that would show"));
        for (Residual residual : residuals) {
            table.row(
                    residual.observation().name(),
                    Figures.length(residual.residual_mm(), shown),
                    residual.isControlled() ? Figures.plain(residual.normalised(), 2) : "\u2013",
                    Figures.plain(residual.redundancy(), 2),
                    residual.isControlled()
                            ? Figures.length(residual.detectable_mm(), shown)
                            : "none: no other touch controls it");
        }
        table.close();
        html.element(
                "p",
                "A touch whose standardised residual lies beyond 3.29 does not fit; chance alone does that to one good"
                        + " touch in a thousand. A mistake as large as the last column is found four times in five.");
    }

    private static String limits(Tolerance tolerance, EntryUnit unit) {
        return Figures.length(tolerance.lower(), unit) + " to " + Figures.length(tolerance.upper(), unit);
    }

    private static String method(PlannedOffset planned) {
        return planned.method().inWords() + " along " + planned.axis() + "; " + planned.axis() + " going "
                + (planned.direction() == Direction.PLUS ? "plus" : "minus") + " presses the contact; the indicator "
                + (planned.stand() == Stand.ON_TABLE ? "stands on the table" : "rides on the machine");
    }

    /** How the controller's table wants the entry, in words. */
    private static String convention(EntryConvention convention) {
        String factor = convention.factor() == 1
                ? "the whole offset"
                : convention.factor() == 0.5 ? "half the offset" : convention.factor() + " times the offset";
        String sign =
                switch (convention.sign()) {
                    case SIGNED -> "with its sign";
                    case NEGATED -> "with its sign turned";
                    case MAGNITUDE -> "without its sign";
                };
        String use = convention.use() == EntryConvention.Use.ABSOLUTE ? "" : ", added to the present entry";
        return factor + " " + sign + use + ", rounded to " + convention.decimals() + " decimals, halves away from zero";
    }
}
